// Puts aside what a phone in the bay has seen: without the service its pages open as they were, marked with when that was. Nothing that is not of the
// bay is kept, and nothing outlives a signing out, or another language: whoever takes the phone next sees none of it.

const most = 40;        // pages; the oldest goes first
const patience = 8000;  // a service that is stalled is as good as away
const storePatience = 2000; // and so is a store
const ahead = 60000;    // what came so much later than now came while the phone's clock was wrong

let epoch = 0;          // what was asked for before somebody signed out is kept for nobody

const isAsset = path => path.startsWith("/assets/");
const isBay = path => path === "/bay" || path.startsWith("/bay/");
const isKept = path => isBay(path) && !path.endsWith("/start") && !path.endsWith("/card"); // these tell a time, and cannot tell how old they are
const pathOf = request => new URL(request.url).pathname;

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", event => event.waitUntil(Promise.all([
  self.clients.claim(),
  forget(), // a worker before this one may not have known of it when somebody signed out
  caches.delete("curewatch-bay"), // where versions before this one kept pages
])));
self.addEventListener("message", event => event.waitUntil(putAside(event.data)));
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
// Only pages have `came`, only pages and assets have `version`: each index lists just those.
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

const inStore = (mode, work) => Promise.race([
  done(mode, work),
  new Promise((_, reject) => setTimeout(() => reject(new Error("The store does not answer.")), storePatience)),
]);

async function done(mode, work) {
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

// A store that is full, or hangs, or that a browser forbids, hides nothing that the service says.
const known = path => inStore("readonly", entries => entries.get(path)).catch(() => undefined);
const unlessForgotten = (begun, work) => inStore("readwrite", entries => { if (begun === epoch) { work(entries); } }).catch(() => undefined);
const responseOf = (entry, status = 200) => new Response(entry.body, { headers: entry.headers, status });

// Another person or another language: what is kept goes once the service has said so, and with whoever signs out in any case.
async function change(request, isSignOut) {
  const words = isSignOut ? stillIn() : unchanged(); // of what is kept: asked for before that goes
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
  return inStore("readwrite", entries => entries.clear()).catch(deleted);
}

// A store that cannot be emptied goes whole. Where that cannot be either, there is no more to be done.
const deleted = () => new Promise(resolve => {
  const request = indexedDB.deleteDatabase("curewatch-bay");
  request.onsuccess = request.onerror = request.onblocked = resolve;
}).catch(() => undefined);

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
    await unlessForgotten(begun, entries => forgetBut(version, entries)); // by itself: what a full store has no room for undoes what was done with it
    await unlessForgotten(begun, entries => entries.put({ path, version, headers: headersOf(fresh), body }));
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
  const [begun, asked] = [epoch, Date.now()];
  const isOpened = request.mode === "navigate";
  try {
    const fresh = await fetch(request, isOpened ? { signal: AbortSignal.timeout(patience) } : {});
    const came = Date.now();
    if (fresh.ok && !fresh.redirected) {
      const text = await fresh.clone().text(); // what breaks off was not answered
      await putPageAside({ path: pathOf(request), asked, came, headers: headersOf(fresh) }, text, isOpened, begun);
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

function headersOf(answered) {
  const headers = new Headers(answered.headers);
  headers.delete("Content-Encoding"); // it is kept as it is read
  return [...headers];
}

async function putPageAside(given, text, isOpened, begun) {
  if (!isKept(given.path)) {
    return;
  }
  const { path, asked, came } = given;
  const body = text.replace("<html", `<html data-aside="${came}" data-asked="${asked}"`);
  const version = text.match(/\/assets\/([^/"]+)\//)?.[1] ?? "";
  await unlessForgotten(begun, forgetWrong);
  await unlessForgotten(begun, entries => {
    const older = entries.get(path), alike = entries.index("version").count(version);
    alike.onsuccess = () => {
      // What was asked for earlier may come later. And a page that asks for itself loads nothing of what a newer one is made of: it would keep no tap.
      if (!(older.result?.asked > asked) && (isOpened || alike.result > 0)) {
        entries.put({ ...given, version, body });
      }
      const pages = entries.index("came").getAllKeys();
      pages.onsuccess = () => pages.result.slice(0, -most).forEach(oldest => entries.delete(oldest));
    };
  });
}

function forgetWrong(entries) {
  const wrong = entries.index("came").getAllKeys(IDBKeyRange.lowerBound(Date.now() + ahead));
  wrong.onsuccess = () => wrong.result.forEach(key => entries.delete(key));
}

// What a page is made of goes before it. Words are what is shown instead of an answer while the service is away, in the language of the page that was
// shown last.
async function putAside({ addresses, words }) {
  await putWordsAside(words);
  const [assets, pages] = [true, false].map(which => addresses.map(a => new Request(a)).filter(request => isAsset(pathOf(request)) === which));
  await Promise.allSettled(assets.map(asset));
  await Promise.allSettled(pages.map(page));
}

const putWordsAside = words => unlessForgotten(epoch, entries => words.forEach(
  ({ path, html }) => entries.put({ path, headers: [["Content-Type", "text/html; charset=utf-8"]], body: html })));
