// The phone in the bay: its taps are kept until the service has them, and it calls to what is flashing. Every form works without this.

import { asOf, refresh } from "./board.js";
import { now } from "./clock.js";
import { forget, isOnItsWay, keep, mayBeSent, send, takenSince, waiting, who } from "./queue.js";
import { fillAgain, fillAsAsked, leave, minutesAgo, sayMinutes, toldAnew } from "./again.js";
import { watch } from "./call.js";
import { language, spoken } from "./tongue.js";
import { beginIn, firstWipe, settle, wipeOf } from "./wipes.js";
import "./aside.js";
import "./photo.js";

const guard = 1500;    // a glove presses twice
const patience = 4000; // what waits longer waits for a service that is away
const list = document.getElementById("waiting");
let pressedAt = -guard;
let lastPress = null; // the tap that was pressed last, and its button
let told = "";
let isShut = false; // nobody is signed in any more, or not who pressed it

// A name for this press alone. Not randomUUID, which browsers have by HTTPS only.
const named = () => Array.from(crypto.getRandomValues(new Uint8Array(12)), byte => byte.toString(16).padStart(2, "0")).join("");

function press(event) {
  const form = event.target;
  if (!form.matches("[data-tap]")) {
    return;
  }
  const fields = new FormData(form, event.submitter);
  if (fields.has("ago")) {
    fields.set("ago", minutesAgo(form) ?? fields.get("ago"));
  }
  const tap = {
    action: new URL(form.action).pathname,
    pressedAt: new Date(later(waiting().at(-1))).toISOString(),
    pressedOn: Date.now(),
    who: who(),
    words: event.submitter?.textContent.replace(/\s+/g, " ").trim() ?? fields.get("did"),
  };
  const isBounce = performance.now() - pressedAt < guard
    && ((event.submitter && event.submitter === lastPress.button) || (lastPress.tap.action === tap.action && isSame(lastPress.tap, fields)));
  const before = [...waiting().filter(mayBeSent), ...takenSince(asOf())] // what the page does not show yet
    .filter(t => t.action === tap.action);
  const isTold = form.hasAttribute("data-once") && before.some(t => isSame(t, fields));
  if (isBounce || isTold) {
    event.preventDefault();
    return;
  }
  fields.set("number", Number(fields.get("number")) + before.length); // as if those before it had been told
  fields.set("press", named());
  const begun = fields.has("corrects") ? null : firstWipe(form);
  if (begun && fields.get("did") === "applied" && Date.parse(begun) <= doneAt({ ...tap, fields })) {
    fields.set("startedAt", begun);
  }
  const wipe = wipeOf(form, fields);
  try {
    keep({ ...tap, wipe, fields: [...fields] });
  } catch {
    return; // no store: the browser sends the form as it is
  }
  event.preventDefault();
  settle(wipe, true);
  toldAnew(form, fields.get("did"));
  form.reset(); // what was said of this tap is not said of the next
  pressedAt = performance.now();
  lastPress = { tap: { ...tap, fields: [...fields] }, button: event.submitter };
  told = tap.words;
  deliver();
}

// What was pressed after another was done after it, also where the service was heard to be some seconds behind in between.
function later(last) {
  const after = last ? Date.parse(last.pressedAt) + 1 : 0;
  return after - now() < patience ? Math.max(after, now()) : now();
}

// When it was done: some minutes before it was told, where somebody said so.
const doneAt = tap => Date.parse(tap.pressedAt) - 60000 * Number(new Map(tap.fields).get("ago") ?? 0);

// The same button of the same page: what was pressed is on its way.
function isSame(tap, fields) {
  const other = new Map(tap.fields);
  return ["did", "surface", "layer", "section", "corrects", "toBay"].every(name => (other.get(name) ?? null) === fields.get(name));
}

async function deliver() {
  show();
  const outcome = await send(refused => settle(refused.wipe, false));
  isShut = outcome === "shut" || (isShut && outcome !== "told");
  show();
  if (outcome === "told") {
    await refresh();
    show();
  }
}

function show() {
  const taps = waiting();
  const lines = taps.map(tap => line(tap));
  if (taps.length === 0 && told !== "" && performance.now() - pressedAt < 5000) {
    lines.push(words("p", spoken("Told: {0}", told)));
  }
  const marks = lines.map(l => l.textContent).join("\n");
  if (list.dataset.shown !== marks) {
    list.dataset.shown = marks;
    list.replaceChildren(...lines);
  }
  for (const button of document.querySelectorAll("form[data-once] button[name=did]")) {
    const fields = new FormData(button.form, button);
    button.classList.toggle("waits", taps.some(t => mayBeSent(t) && t.action === new URL(button.form.action).pathname && isSame(t, fields)));
  }
  goOnAlone(taps.filter(mayBeSent));
  sayFirstWipes();
}

// While the service is away the phone reckons what it would have said: from when a coat was wiped on, and how long one takes in the air as it was.
function goOnAlone(taps) {
  const alone = document.getElementById("alone");
  if (!alone) {
    return;
  }
  const isAway = !document.getElementById("lost").hidden || taps.some(t => now() - Date.parse(t.pressedAt) > patience);
  if (alone.hidden && isAway) {
    document.querySelector("details.coming")?.setAttribute("open", "");
  }
  alone.hidden = !isAway;
  for (const coat of alone.querySelectorAll("[data-alone]")) {
    const [applied, levelled] = ["applied", "levelled"].map(did => taps.find(t => isSame(t, new FormData(coat.querySelector("form"), coat.querySelector(`[value=${did}]`)))));
    const from = applied && !levelled && coat.dataset.byAfter ? doneAt(applied) : null;
    const begun = applied ? Date.parse(new Map(applied.fields).get("startedAt") ?? "") || from : null; // level-by runs from the first wipe
    for (const [name, value] of [["call", from && `${coat.dataset.alone}-${from}`], ["look", at(from, coat.dataset.lookAfter)], ["by", at(begun, coat.dataset.byAfter)]]) {
      if (value === null) {
        delete coat.dataset[name];
      } else {
        coat.dataset[name] = value;
      }
    }
    const text = levelled ? spoken("Levelled.") : !applied ? "" : from === null ? spoken("Judge by eye.")
      : spoken("Level {0}, by {1}.", span(coat.dataset.look), span(coat.dataset.by));
    if (coat.querySelector(".reckoned").textContent !== text) {
      coat.querySelector(".reckoned").textContent = text;
    }
  }
}

// A coat that does not flash, or a bay that was never heard, has no such time.
const at = (from, seconds) => from === null || seconds === undefined ? null : new Date(from + 1000 * Number(seconds)).toISOString();

function span(instant) {
  const seconds = Math.floor((Date.parse(instant) - now()) / 1000);
  const length = `${Math.floor(Math.abs(seconds) / 60)}:${String(Math.abs(seconds) % 60).padStart(2, "0")}`;
  return seconds >= 0 ? spoken("in {0}", length) : spoken("since {0}", length);
}

function line(tap) {
  const pressed = new Intl.DateTimeFormat(language, { timeZone: document.getElementById("clock").dataset.zone, hour: "2-digit", minute: "2-digit" })
    .format(new Date(tap.pressedAt));
  const isAnothers = tap.who !== who() || (isShut && tap.who);
  const text = tap.why ? spoken("Not taken: {0}, {1}. {2}", tap.words, pressed, tap.why)
    : isAnothers && tap.who ? spoken("Kept on this phone until {0} is signed in again: {1}, {2}.", tap.who, tap.words, pressed)
    : isAnothers ? spoken("Kept on this phone until whoever pressed it is signed in again: {0}, {1}.", tap.words, pressed)
    : isShut ? spoken("Kept on this phone until you sign in: {0}, {1}.", tap.words, pressed)
    : spoken("Kept on this phone until the service hears it: {0}, {1}.", tap.words, pressed);
  const p = words("p", `${text} `);
  const button = words("button", tap.why ? spoken("I have read it") : spoken("Take back"));
  button.type = "button";
  button.className = "quiet";
  button.addEventListener("click", () => takeBack(tap));
  p.className = tap.why ? "refused" : "";
  if (!tap.why && (isShut || isAnothers)) {
    const link = words("a", spoken("Sign in"));
    link.href = `/sign-in?then=${encodeURIComponent(location.pathname)}`;
    p.append(link, " ");
  }
  if (!isOnItsWay(tap)) {
    p.append(button);
  }
  if (tap.why && new Map(tap.fields).get("did") !== "withdrawn") {
    const again = words("button", spoken("Fill it in again"));
    again.type = "button";
    again.className = "quiet";
    again.addEventListener("click", () => { fillAgain(tap, doneAt); show(); });
    p.append(" ", again);
  }
  return p;
}

function takeBack(tap) {
  forget(tap.key);
  leave(tap);
  if (!tap.why) {
    settle(tap.wipe, false);
  }
  show();
}

function words(name, text) {
  const element = document.createElement(name);
  element.textContent = text;
  return element;
}

function sayFirstWipes() {
  for (const button of document.querySelectorAll("[data-first]")) {
    const begun = firstWipe(button.form);
    const text = begun ? spoken("First wipe {0}", span(begun)) : spoken("First wipe now");
    button.hidden = false;
    if (button.textContent !== text) {
      button.textContent = text;
    }
  }
}

function begin(event) {
  const button = event.target.closest("[data-first]");
  if (button) {
    beginIn(button.form);
    sayFirstWipes();
  }
}

function expire() {
  for (const element of document.querySelectorAll("[data-until]")) {
    element.hidden = Date.parse(element.dataset.until) < now();
  }
}

document.addEventListener("submit", press);
document.addEventListener("click", begin);
document.addEventListener("shown", () => { show(); expire(); });
window.addEventListener("online", deliver);
window.addEventListener("storage", show);
setInterval(() => { watch(); expire(); show(); sayMinutes(); }, 500);
setInterval(() => { if (waiting().some(mayBeSent)) { deliver(); } }, 3000);
fillAsAsked(doneAt);
deliver();
