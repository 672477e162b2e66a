// Puts aside what a phone in the bay has seen: without the service its pages open as they were, marked with when that was. Nothing that is not of the
// bay is kept, and nothing outlives a signing out, or another language: whoever takes the phone next sees none of it.

const store = "curewatch-bay";
const most = 40;        // pages; the oldest goes first
const patience = 8000;  // a service that is stalled is as good as away

let epoch = 0;          // what was asked for before somebody signed out is kept for nobody

const isAsset = path => path.startsWith("/assets/");
const isBay = path => path === "/bay" || path.startsWith("/bay/");
const isKept = path => isBay(path) && !path.endsWith("/start") && !path.endsWith("/card"); // these tell a time, and cannot tell how old they are
const pathOf = request => new URL(request.url).pathname;

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", event => event.waitUntil(self.clients.claim()));
self.addEventListener("message", event => event.waitUntil(Promise.allSettled(event.data.map(address => answer(new Request(address))))));
self.addEventListener("fetch", event => {
  const path = pathOf(event.request);
  if (path === "/sign-in" || path === "/sign-out" || path === "/tongue") {
    event.respondWith(change(event.request, path === "/sign-out"));
  } else if (event.request.method === "GET" && (isAsset(path) || isBay(path))) {
    event.respondWith(answer(event.request));
  }
});

const answer = request => isAsset(pathOf(request)) ? asset(request) : page(request);

// Another person or another language: what is kept goes once the service has said so, and with whoever signs out in any case.
async function change(request, isSignOut) {
  const words = await (isSignOut ? stillIn() : unchanged()); // of what is kept, before that goes
  try {
    const answered = await fetch(request, { signal: AbortSignal.timeout(patience) });
    if (answered.ok || answered.type === "opaqueredirect") {
      await forget(); // a wrong PIN is still nobody
    }
    return answered;
  } catch {
    if (isSignOut) {
      await forget();
    }
    return words;
  }
}

function forget() {
  epoch++;
  return caches.delete(store);
}

async function asset(request) {
  const begun = epoch;
  const kept = await caches.open(store);
  const known = await kept.match(request);
  if (known) {
    return known;
  }
  const fresh = await fetch(request);
  if (fresh.ok) {
    const version = pathOf(request).split("/")[2];
    const others = (await kept.keys()).filter(key => isAsset(pathOf(key)) && pathOf(key).split("/")[2] !== version);
    if (others.length > 0) {
      await forgetPagesBut(version, kept);
      await Promise.all(others.map(key => kept.delete(key)));
    }
    const copy = fresh.clone();
    if (begun === epoch) {
      await kept.put(request, copy);
    }
  }
  return fresh;
}

// A page without its style and its script would keep no tap: it goes with them.
async function forgetPagesBut(version, kept) {
  for (const key of (await kept.keys()).filter(key => isBay(pathOf(key)))) {
    const page = await kept.match(key);
    if (page && !(await page.text()).includes(`/assets/${version}/`)) {
      await kept.delete(key);
    }
  }
}

async function page(request) {
  const begun = epoch;
  const isOpened = request.mode === "navigate";
  try {
    const fresh = await fetch(request, isOpened ? { signal: AbortSignal.timeout(patience) } : {});
    const came = Date.now();
    if (fresh.ok && !fresh.redirected) {
      const text = await fresh.clone().text(); // what breaks off was not answered
      await keep(request, fresh.headers, text, begun, came).catch(() => undefined); // a store that is full hides nothing that was
    }
    return fresh;
  } catch (fault) {
    // Only what a person opens: what the page itself asks for must not look as if the service had answered.
    if (!isOpened) {
      throw fault;
    }
    const known = await (await caches.open(store)).match(request.url, { ignoreSearch: true, ignoreVary: true });
    return known ? new Response(await known.text(), { headers: known.headers }) : unknown();
  }
}

// In words, where a browser would only say that something failed: those that a page put aside in its language.
async function inWords(path, tab, heading, text) {
  const kept = await (await caches.open(store)).match(path);
  return kept ?? new Response(
    `<!DOCTYPE html><html lang="en"><meta name="viewport" content="width=device-width"><title>${tab}</title><h1>${heading}</h1>
    <p>${text}</p><p><a href="/bay">To the bays</a></p>`,
    { status: 503, headers: { "Content-Type": "text/html; charset=utf-8" } });
}

const unknown = () => inWords(
  "/unknown", "The service is away", "The service does not answer",
  "This phone has not shown this page before, so there is nothing to show of it. Look at the coats yourself.");

const stillIn = () => inWords(
  "/still-in", "Not signed out", "You are still signed in",
  "The service does not answer, so nobody was signed out. Keep the phone by you, and sign out again once it answers.");

const unchanged = () => inWords(
  "/unchanged", "Not known", "The service does not answer",
  "Whether anything was changed is not known. What this phone has shown before is still there.");

async function keep(request, given, text, begun, came) {
  const kept = await caches.open(store);
  if (begun !== epoch || !isKept(pathOf(request))) {
    return;
  }
  const headers = new Headers(given);
  headers.delete("Content-Encoding");
  const marked = text.replace("<html", `<html data-aside="${came}"`);
  await kept.put(request.url, new Response(marked, { headers }));
  const pages = (await kept.keys()).filter(key => isBay(pathOf(key)));
  await Promise.all(pages.slice(0, Math.max(0, pages.length - most)).map(key => kept.delete(key)));
}
