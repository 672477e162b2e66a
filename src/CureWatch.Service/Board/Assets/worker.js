// Puts aside what a phone in the bay has seen: without the service its pages open as they were, marked with when that was. Nothing that is not of the
// bay is kept, and nothing outlives a signing out, or another language: whoever takes the phone next sees none of it.

const most = 40;        // pages; the oldest goes first
const patience = 8000;  // a service that is stalled is as good as away

let epoch = 0;          // what was asked for before somebody signed out is kept for nobody

const isAsset = path => path.startsWith("/assets/");
const isBay = path => path === "/bay" || path.startsWith("/bay/");
const isKept = path => isBay(path) && !path.endsWith("/start") && !path.endsWith("/card"); // these tell a time, and cannot tell how old they are
const pathOf = request => new URL(request.url).pathname;

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", event => event.waitUntil(Promise.all([
  self.clients.claim(),
  caches.delete("curewatch-bay"), // where versions before this one kept pages
])));
self.addEventListener("message", event => event.waitUntil(Promise.allSettled(
  [...event.data.addresses.map(address => answer(new Request(address))), putWordsAside(event.data.words)])));
self.addEventListener("fetch", event => {
  const path = pathOf(event.request);
  if (path === "/sign-in" || path === "/sign-out" || path === "/tongue") {
    event.respondWith(change(event.request, path === "/sign-out"));
  } else if (event.request.method === "GET" && (isAsset(path) || isBay(path))) {
    event.respondWith(answer(event.request));
  }
});

const answer = request => isAsset(pathOf(request)) ? asset(request) : page(request);

// A database, for its entries are there whole or not at all: a browser that puts another page in the place of one in its cache has neither for a moment.
// Only pages have come at a time, and only pages and assets are of a version.
const opened = () => new Promise((resolve, reject) => {
  const request = indexedDB.open("curewatch-bay", 1);
  request.onupgradeneeded = () => {
    const entries = request.result.createObjectStore("aside", { keyPath: "path" });
    entries.createIndex("came", "came");
    entries.createIndex("version", "version");
  };
  request.onsuccess = () => resolve(request.result);
  request.onerror = () => reject(request.error);
});

async function inStore(mode, work) {
  const database = await opened();
  try {
    const transaction = database.transaction("aside", mode);
    const asked = work(transaction.objectStore("aside"));
    return await new Promise((resolve, reject) => {
      transaction.oncomplete = () => resolve(asked?.result);
      transaction.onabort = () => reject(transaction.error);
    });
  } finally {
    database.close();
  }
}

// A store that is full, or that a browser forbids, hides nothing that the service says.
const known = path => inStore("readonly", entries => entries.get(path)).catch(() => undefined);
const keep = (begun, work) => inStore("readwrite", entries => { if (begun === epoch) { work(entries); } }).catch(() => undefined);
const responseOf = (entry, status = 200) => new Response(entry.body, { headers: entry.headers, status });

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
  return inStore("readwrite", entries => entries.clear()).catch(() => undefined); // where there is no store, nothing is kept
}

async function asset(request) {
  const [begun, path] = [epoch, pathOf(request)];
  const kept = await known(path);
  if (kept) {
    return responseOf(kept);
  }
  const fresh = await fetch(request);
  if (fresh.ok) {
    const version = path.split("/")[2];
    const body = await fresh.clone().arrayBuffer();
    await keep(begun, entries => {
      forgetBut(version, entries);
      entries.put({ path, version, headers: [["Content-Type", fresh.headers.get("Content-Type")]], body });
    });
  }
  return fresh;
}

// A page without its style and its script would keep no tap: it goes with them.
function forgetBut(version, entries) {
  entries.index("version").openKeyCursor().onsuccess = ({ target: { result: cursor } }) => {
    if (cursor) {
      if (cursor.key !== version) {
        entries.delete(cursor.primaryKey);
      }
      cursor.continue();
    }
  };
}

async function page(request) {
  const begun = epoch;
  const isOpened = request.mode === "navigate";
  try {
    const fresh = await fetch(request, isOpened ? { signal: AbortSignal.timeout(patience) } : {});
    const came = Date.now();
    if (fresh.ok && !fresh.redirected) {
      const text = await fresh.clone().text(); // what breaks off was not answered
      await putPageAside(pathOf(request), fresh.headers, text, begun, came);
    }
    return fresh;
  } catch (fault) {
    // Only what a person opens: what the page itself asks for must not look as if the service had answered.
    if (!isOpened) {
      throw fault;
    }
    const kept = await known(pathOf(request));
    return kept ? responseOf(kept) : unknown();
  }
}

// In words, where a browser would only say that something failed: those that a page put aside in its language.
async function inWords(path, tab, heading, text) {
  const kept = await known(path);
  return kept ? responseOf(kept, 503) : new Response(
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

async function putPageAside(path, given, text, begun, came) {
  if (!isKept(path)) {
    return;
  }
  const headers = new Headers(given);
  headers.delete("Content-Encoding");
  const body = text.replace("<html", `<html data-aside="${came}"`);
  const version = text.match(/\/assets\/([^/"]+)\//)?.[1] ?? "";
  await keep(begun, entries => {
    entries.put({ path, came, version, headers: [...headers], body });
    const pages = entries.index("came").getAllKeys();
    pages.onsuccess = () => pages.result.slice(0, -most).forEach(oldest => entries.delete(oldest));
  });
}

// What is shown instead of an answer while the service is away, in the language of the page that was shown last.
const putWordsAside = words => keep(epoch, entries => words.forEach(
  ({ path, html }) => entries.put({ path, headers: [["Content-Type", "text/html; charset=utf-8"]], body: html })));
