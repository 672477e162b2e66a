// Keeps the board up to date: listens to the service, fetches the page again when something changed, and puts only what differs in place.
// Countdowns run on the service's clock. A board that lost its service says so.

import { away } from "./away.js";
import { aside, clock, itIs, now } from "./clock.js";
import { sayIfNewer } from "./newer.js";
import { language, spoken } from "./tongue.js";

const lostAfter = 8000;        // the service sends something at least every three seconds
const fetchPause = 1000;       // many changes are one fetch
const ownRefresh = 30000;      // windows also move while nothing is told
const longestPause = 30000;    // between two tries to listen
const link = document.getElementById("link");
const lost = document.getElementById("lost");

let source = null;
let heardAt = performance.now();             // when anything was last heard, or listening began
let heardWall = Date.parse(clock.dateTime);  // and what time that was
let changedAt = null;                        // when something changed that is not shown yet
let shownAt = performance.now();
let shownAsOf = Number(document.documentElement.dataset.asked ?? performance.timeOrigin); // when what is shown was asked for: it is no older
let listenPause = fetchPause;                // how long to wait before listening again, where the service refused
let listenAt = 0;
let isFetching = false;
let isLeaving = false;                       // for the sign-in page: to go there again each second would never arrive on a slow network
let isLost = false;
let pressedAt = -fetchPause;
let isAside = aside > 0;                     // and the service was not heard since

function say(word, tone) {
  if (link.textContent !== word) {
    link.textContent = word;
    link.className = `mark ${tone}`;
  }
}

function wall(at) {
  return new Intl.DateTimeFormat(language, { timeZone: clock.dataset.zone, hour: "2-digit", minute: "2-digit", second: "2-digit" }).format(at);
}

// A page that was put aside may be of another day.
const since = at => now() - at < 12 * 3600 * 1000
  ? wall(at)
  : `${new Intl.DateTimeFormat(language, { timeZone: clock.dataset.zone, weekday: "long" }).format(at)}, ${wall(at)}`;

function heard(event) {
  heardAt = performance.now();
  if (event.type === "clock") {
    itIs(Date.parse(JSON.parse(event.data).at));
  } else {
    changedAt ??= heardAt;
  }
  heardWall = now();
  listenPause = fetchPause;
  isAside = false;
}

function listen() {
  source?.close();
  source = new EventSource("/api/v1/live");
  for (const kind of ["clock", "troubles", "climate", "windows", "handover", "warning", "cancelled"]) {
    source.addEventListener(kind, heard);
  }
}

function watch() {
  if (document.hidden || isLeaving) {
    return;
  }
  const at = performance.now();
  const isSilent = at - heardAt > lostAfter || (changedAt !== null && at - changedAt > lostAfter);
  if (isSilent && !isLost) {
    lost.textContent = spoken(
      "The service has not answered since {0}. Nothing here is newer than that; countdowns run on from what was known then. Look at the coats yourself.",
      since(heardWall));
  }
  if (!isSilent && isLost) {
    lost.textContent = "";
    changedAt ??= at;
  }
  isLost = isSilent;
  lost.hidden = !isLost;
  say(isLost ? spoken("not connected") : spoken("live"), isLost ? "act" : "fine");
  if (source.readyState === EventSource.CLOSED && at > listenAt) {
    listenPause = Math.min(2 * listenPause, longestPause);
    listenAt = at + listenPause;
    changedAt ??= at; // the page itself says why, where nobody is signed in any more
    listen();
  }
  if (!isFetching && at - pressedAt > fetchPause && at - shownAt > (changedAt === null ? ownRefresh : fetchPause)) {
    refresh();
  }
}

export const asOf = () => shownAsOf;

// A chosen photo is nowhere else.
const hasPhoto = () => [...document.querySelectorAll("input[type=file]")].some(field => field.files.length > 0);

export async function refresh() {
  isFetching = true;
  const [asked, askedOn] = [performance.now(), Date.now()];
  try {
    const answer = await fetch(location.pathname + location.search, { headers: { Accept: "text/html" }, signal: AbortSignal.timeout(lostAfter) });
    if (answer.redirected && new URL(answer.url).pathname === "/sign-in") {
      if (hasPhoto()) {
        [heardAt, changedAt] = [performance.now(), null]; // the service is there
        return;
      }
      isLeaving = true;
      source?.close();
      location.assign(answer.url);
    } else if (answer.ok) {
      const page = new DOMParser().parseFromString(await answer.text(), "text/html");
      const said = Date.parse(page.getElementById("clock").dateTime);
      if (said > now()) {
        itIs(said); // a stepped clock runs faster than ours
      }
      shownAsOf = askedOn;
      morph(document.getElementById("content"), page.getElementById("content"));
      for (const what of [".who", ".part-of-day"]) { // somebody else may have signed in on another page of this browser
        const [old, fresh] = [document, page].map(d => d.querySelector(what));
        if (old && fresh) {
          morph(old, fresh);
        }
      }
      sayIfNewer(page);
      count();
      document.dispatchEvent(new Event("shown"));
      changedAt = changedAt > asked ? changedAt : null;
    }
  } catch {
    // Nothing came: what changed stays unshown, and the watch says so when that lasts.
  } finally {
    shownAt = performance.now();
    isFetching = false;
  }
}

// What a person opened or typed stays as it is; everything else becomes what the service says, node by node, so that a button under a finger
// is still the same button.
function morph(old, fresh) {
  if (old.nodeType !== fresh.nodeType || old.nodeName !== fresh.nodeName || old.id !== fresh.id) {
    old.replaceWith(fresh.cloneNode(true));
    return;
  }
  if (old.nodeType !== Node.ELEMENT_NODE) {
    if (old.data !== fresh.data) {
      old.data = fresh.data;
    }
    return;
  }
  if ("own" in old.dataset) {
    return; // a script of ours speaks there
  }
  for (const { name } of [...old.attributes]) {
    if (!fresh.hasAttribute(name) && !isOfThePerson(old, name)) {
      old.removeAttribute(name);
    }
  }
  for (const { name, value } of fresh.attributes) {
    if (old.getAttribute(name) !== value && !isOfThePerson(old, name)) {
      old.setAttribute(name, value);
    }
  }
  morphChildren(old, fresh);
}

// A choice that is marked anew is made anew, also where somebody has made another.
const isOfThePerson = (node, name) => (name === "open" && node.nodeName === "DETAILS") || (name === "selected" && node.nodeName === "OPTION");

// What tells a node from those beside it, wherever it stands: what was typed of one tap must not become another's when the list grows.
const nameOf = node => node.nodeType !== Node.ELEMENT_NODE ? ""
  : node.getAttribute("id") ?? (node.nodeName === "OPTION" ? node.value : node.getAttribute("name") ?? "");

function morphChildren(old, fresh) {
  const left = new Map();
  const keyOf = node => `${node.nodeName}#${nameOf(node)}`;
  for (const node of old.childNodes) {
    left.set(keyOf(node), [...(left.get(keyOf(node)) ?? []), node]);
  }
  const pairs = [...fresh.childNodes].map(want => [left.get(keyOf(want))?.shift(), want]);
  [...left.values()].flat().forEach(node => node.remove());
  let place = old.firstChild;
  for (const [has, want] of pairs) {
    const node = has ?? want.cloneNode(true);
    while (has && place !== node && place?.nodeType === Node.TEXT_NODE) {
      const text = place; // it makes way and comes back later: what is moved itself loses the cursor
      place = text.nextSibling;
      text.remove();
    }
    if (place === node) {
      place = node.nextSibling;
    } else {
      old.insertBefore(node, place);
    }
    if (has) {
      morph(has, want);
    }
  }
}

function count() {
  const at = now();
  clock.textContent = wall(at);
  for (const span of document.querySelectorAll("[data-away]")) {
    const text = `(${away(Date.parse(span.previousElementSibling.dateTime) - at)})`;
    if (span.textContent !== text) {
      span.textContent = text;
    }
  }
}

// A hidden tab listens to nothing: a browser has six connections to a host, and the seventh board would wait for ever.
function appear() {
  if (document.hidden) {
    source?.close();
  } else {
    heardAt = performance.now() - (isAside ? lostAfter : 0);
    changedAt ??= heardAt;
    listen();
  }
}

document.addEventListener("pointerdown", () => { pressedAt = performance.now(); }); // nothing moves under a finger
document.addEventListener("visibilitychange", appear);
window.addEventListener("pagehide", () => source?.close());
window.addEventListener("pageshow", event => event.persisted && appear());

appear();
setInterval(() => { if (source) { watch(); } count(); }, 500);
