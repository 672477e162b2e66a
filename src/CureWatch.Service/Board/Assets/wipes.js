// When somebody said the first wipe was, by coat: level-by counts from there. Nobody has to say it.

import { now } from "./clock.js";

const store = "curewatch-first-wipes";
const longestWipe = 24 * 3600 * 1000;
const isFresh = at => now() - Date.parse(at) < longestWipe;
const wipes = new Map(JSON.parse(sessionStorage.getItem(store) ?? "[]").filter(([, at]) => isFresh(at)));
const pathOf = form => new URL(form.action).pathname;
const coatOf = (form, fields) => `${pathOf(form)} ${["surface", "layer", "section"].map(name => fields.get(name)).join(" ")}`;

function keep() {
  try {
    sessionStorage.setItem(store, JSON.stringify([...wipes]));
  } catch {
    // No store: then this page remembers them as long as it is open.
  }
}

export const firstWipe = form => wipes.get(coatOf(form, new FormData(form)));

export function beginIn(form) {
  wipes.set(coatOf(form, new FormData(form)), new Date(now()).toISOString());
  keep();
}

// The first wipe that a tap has to do with: a coat that is told uses it up, one that is taken back gives it back.
export function wipeOf(form, fields) {
  const { coat, begun } = form.dataset;
  return fields.get("did") === "applied" && fields.has("startedAt") && !fields.has("corrects") ? { coat: coatOf(form, fields), at: fields.get("startedAt"), isUsed: true }
    : fields.get("did") === "withdrawn" && begun ? { coat: `${pathOf(form)} ${coat}`, at: begun, isUsed: false }
    : null;
}

// What becomes of it once the tap is told, or is not after all. One that was pressed since stays.
export function settle(wipe, isTold) {
  if (wipe && wipe.isUsed === isTold && wipes.get(wipe.coat) === wipe.at) {
    wipes.delete(wipe.coat);
    keep();
  } else if (wipe && wipe.isUsed !== isTold && !wipes.has(wipe.coat) && isFresh(wipe.at)) {
    wipes.set(wipe.coat, wipe.at);
    keep();
  }
}
