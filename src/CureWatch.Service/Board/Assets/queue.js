// Taps that the service has not heard yet, in the browser's own store: they outlive a reload, a flat battery and a service that is away. Each keeps
// the instant it was pressed, the number its page had and a name of its own, of which the service makes its id: however often it is sent, it counts once.

import { keepsTime } from "./clock.js";
import { spoken } from "./tongue.js";

const prefix = "curewatch-tap:";
const patience = 8000;
const prompt = 3000;
let isSending = false;
let sent = null; // the key of the one that is on its way
const toldStore = "curewatch-told";
const toldFor = 600_000; // longer ago, another page has come
const asked = ["number", "did", "surface", "layer", "section", "corrects", "toBay"]; // and nothing of what somebody wrote

const keys = () => Object.keys(localStorage).filter(key => key.startsWith(prefix)).sort();

export const waiting = () => keys().map(key => ({ key, ...JSON.parse(localStorage.getItem(key)) }));

// A key of its own for each, so that two tabs never write over each other's; it sorts by when it was pressed, on this phone's own clock: what is known of
// the service's may turn out seconds ahead.
export function keep(tap) {
  localStorage.setItem(`${prefix}${new Date(tap.pressedOn).toISOString()}:${performance.now().toFixed(3).padStart(20, "0")}`, JSON.stringify(tap));
}

export const forget = key => localStorage.removeItem(key);

// What is on its way cannot be taken back: the service may have it already.
export const isOnItsWay = tap => tap.key === sent;

// What the service has taken of what was pressed here, also before a reload.
const taken = () => JSON.parse(sessionStorage.getItem(toldStore) ?? "[]").filter(tap => Math.abs(Date.now() - tap.toldOn) < toldFor);

// What of that a page of an instant does not show yet.
export const takenSince = instant => taken().filter(tap => tap.toldOn > instant);

function noteTaken(tap) {
  const told = { action: tap.action, toldOn: Date.now(), fields: tap.fields.filter(([name]) => asked.includes(name)) };
  try {
    sessionStorage.setItem(toldStore, JSON.stringify([...taken(), told]));
  } catch {
    // No store: then a page that was put aside may take what is pressed again for what was told.
  }
}

// Who is signed in on this page; nobody where nobody signs in.
export const who = () => document.querySelector(".who .small")?.textContent.trim() ?? "";

// What nobody has refused, and whoever is signed in now may tell: each tap carries who pressed it, and not who came after.
export const mayBeSent = tap => !tap.why && tap.who === who();

// What is sent at once happened now, by the service's own clock, unless it arrives later than that; what had to wait says when, also where the phone's
// clock was set back meanwhile. The service takes it only from who pressed it: this page may not know yet who signed in on another.
function told(tap) {
  const fields = new URLSearchParams(tap.fields);
  fields.set("who", tap.who);
  const waited = Date.now() - tap.pressedOn;
  if (waited < 0 || waited > prompt) {
    fields.set("pressedAt", tap.pressedAt);
  } else if (keepsTime()) {
    fields.set("sentAt", tap.pressedAt);
  }
  return fields;
}

// A car that was moved is told of under two bays.
const carOf = tap => tap.action.replace(/^.*(?=\/jobs\/)/, "");

// In the order they were pressed; what the service refuses stays, with its reason, until somebody has read it.
export async function send(refused) {
  if (isSending) {
    return "nothing";
  }
  isSending = true;
  let outcome = "nothing";
  const passed = new Set();
  const held = new Set(); // the cars of which nothing is taken now: what was told of one comes in its order, and another's does not wait for it
  try {
    for (let tap; (tap = waiting().find(t => mayBeSent(t) && !passed.has(t.key) && !held.has(carOf(t))));) {
      sent = tap.key;
      passed.add(sent);
      const answer = await fetch(tap.action, { method: "POST", body: told(tap), signal: AbortSignal.timeout(patience) });
      const shown = new URL(answer.url).pathname;
      if (answer.ok && answer.redirected && `${shown}/taps` === tap.action) {
        noteTaken(tap);
        forget(tap.key); // the service leads on to the car only from what it has taken
        outcome = "told";
      } else if (shown === "/sign-in" || answer.status === 401 || answer.status === 403) {
        return "shut";
      } else if (answer.status === 429) {
        break; // nothing is taken now: all of it must come again
      } else if (answer.status === 503) {
        held.add(carOf(tap));
      } else if (answer.status < 500 && !answer.ok) {
        const { key, ...kept } = tap;
        localStorage.setItem(key, JSON.stringify({ ...kept, why: reasonOf(await answer.text()) }));
        refused(tap);
        outcome = "told";
      } // else this one alone was not taken: it must come again, and holds up none behind it
    }
  } catch {
    // The service is away: everything stays where it is.
  } finally {
    isSending = false;
    sent = null;
  }
  return outcome;
}

// What a page says of what was refused.
export function reasonOf(html) {
  const page = new DOMParser().parseFromString(html, "text/html");
  const faults = [...page.querySelectorAll("#content [role=alert] li")].map(li => li.textContent.trim());
  const said = [...page.querySelectorAll("#content :is(h1, p)")].map(part => part.textContent.trim()).filter(text => text !== "");
  return (faults.length > 0 ? faults.join(" ") : said.join(". ")) || page.getElementById("content")?.textContent.trim() || spoken("It was refused.");
}
