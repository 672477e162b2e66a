import { spoken } from "./tongue.js";

// Has the phone put its pages aside, so that they open without the service. Browsers allow it by HTTPS, and on the service's own computer.

// What is shown instead of an answer while the service is away: the worker that shows it has no page to read its language from.
function inWords(path, tab, heading, words) {
  const page = document.implementation.createHTMLDocument(tab);
  page.documentElement.lang = document.documentElement.lang;
  const [title, text, line, link] = ["h1", "p", "p", "a"].map(name => page.createElement(name));
  title.textContent = heading;
  text.textContent = words;
  link.textContent = spoken("To the bays");
  link.href = "/bay";
  line.append(link);
  const meta = page.createElement("meta");
  meta.name = "viewport";
  meta.content = "width=device-width";
  page.head.append(meta);
  page.body.append(title, text, line);
  return { path, html: `<!DOCTYPE html>${page.documentElement.outerHTML}` };
}

async function putAside() {
  await navigator.serviceWorker.register("/worker.js");
  const { active } = await navigator.serviceWorker.ready;
  const assets = performance.getEntriesByType("resource").map(entry => entry.name).filter(name => new URL(name).pathname.startsWith("/assets/"));
  const words = [
    inWords(
      "/unknown", spoken("The service is away"), spoken("The service does not answer"),
      spoken("This phone has not shown this page before, so there is nothing to show of it. Look at the coats yourself.")),
    inWords(
      "/unchanged", spoken("Not known"), spoken("The service does not answer"),
      spoken("Whether anything was changed is not known. What this phone has shown before is still there.")),
    inWords(
      "/still-in", spoken("Not signed out"), spoken("You are still signed in"),
      spoken("The service does not answer, so nobody was signed out. Keep the phone by you, and sign out again once it answers.")),
  ];
  active.postMessage({ addresses: [location.href, ...assets], words });
}

// A browser may forbid it, in a private window for one: then the pages need the service.
const tryToPutAside = () => putAside().catch(() => undefined);

if ("serviceWorker" in navigator) {
  navigator.serviceWorker.addEventListener("controllerchange", tryToPutAside); // a worker begins with nothing
  tryToPutAside();
}
