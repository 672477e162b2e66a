// What was filled in for a tap that the service refused, offered in its form again: on this page, or on the one that has it.

import { now } from "./clock.js";
import { forget, waiting } from "./queue.js";
import { spoken } from "./tongue.js";

const asked = "curewatch-again";
const unseen = ["number", "press", "panel", "startedAt", "batchBefore", "by"]; // what a page says of itself, and of whom it is
const refused = new WeakMap(); // the tap that a form was filled in from

const ofNoCoat = ["panel-wiped", "wetted", "dried", "lamp-on", "lamp-off"]; // whatever coat the button stood beside

// The form that tells it: of the same car, with the same button and what it says unseen, and with a field for when it was: told anew it is not now.
const formOf = (tap, fields) => [...document.querySelectorAll("form[data-tap]")].find(form => new URL(form.action).pathname === tap.action
  && form.querySelector("[name=ago], [name=doneAt], [name=at]")
  && [...form.querySelectorAll("[name=did]")].some(did => did.value === fields.get("did"))
  && [...form.querySelectorAll("[type=hidden]")].every(has => unseen.includes(has.name) || has.value === (fields.get(has.name) ?? ""))
  && [...fields.keys()].every(name => unseen.includes(name) || form.querySelector(`[name="${name}"]`) || (name === "layer" && ofNoCoat.includes(fields.get("did")))));

const minutesSince = instant => String(Math.max(0, Math.round((now() - instant) / 60000)));

// Time has passed since: what was "5 min ago" is longer ago now, and will be when it is told. The choice is ours: no refresh takes it away.
function chooseAgo(field, doneAt) {
  const minutes = minutesSince(doneAt);
  const choice = new Option(spoken("{0} min ago", minutes), minutes, false, true);
  choice.dataset.doneAt = doneAt;
  field.dataset.own = "";
  field.add(choice);
}

function fill(tap, fields, form, doneAt) {
  for (const field of form.querySelectorAll("input:not([type=hidden]), select")) {
    if (field.name === "ago") {
      chooseAgo(field, doneAt(tap));
    } else if (fields.has(field.name)) {
      field.value = fields.get(field.name);
    }
  }
  for (let box = form.closest("details"); box; box = box.parentElement.closest("details")) {
    box.open = true;
  }
  refused.set(form, { key: tap.key, did: fields.get("did") });
  form.scrollIntoView();
  form.querySelector("input:not([type=hidden]), select, button")?.focus();
}

// When a form that was filled in again says it was done [min ago]; undefined where somebody chose another time, or it was not filled in again.
export function minutesAgo(form) {
  const { doneAt } = form.querySelector("[name=ago]")?.selectedOptions[0]?.dataset ?? {};
  return doneAt && minutesSince(Number(doneAt));
}

function clear(form) {
  refused.delete(form);
  form.querySelector("[data-done-at]")?.remove();
  delete form.querySelector("[name=ago]")?.dataset.own;
}

// What was refused is told anew: it goes, and so does the time it brought.
export function toldAnew(form, did) {
  const tap = refused.get(form);
  if (tap?.did === did) {
    forget(tap.key);
  }
  clear(form);
}

// Somebody has read it, and tells it no more: what it brought must not become another's.
export function leave(tap) {
  for (const form of document.querySelectorAll("form[data-tap]")) {
    if (refused.get(form)?.key === tap.key) {
      clear(form);
      form.reset();
    }
  }
}

// Time passes while somebody reads.
export function sayMinutes() {
  for (const choice of document.querySelectorAll("option[data-done-at]")) {
    const minutes = minutesSince(Number(choice.dataset.doneAt));
    if (choice.value !== minutes) {
      [choice.value, choice.textContent] = [minutes, spoken("{0} min ago", minutes)];
    }
  }
}

export function fillAgain(tap, doneAt) {
  const fields = new Map(tap.fields);
  const form = formOf(tap, fields);
  if (form) {
    fill(tap, fields, form, doneAt);
  } else {
    sessionStorage.setItem(asked, tap.key);
    location.assign(tap.action.replace(/taps$/, fields.has("corrects") ? "told" : "more"));
  }
}

// Somebody asked for it on another page.
export function fillAsAsked(doneAt) {
  const tap = waiting().find(t => t.key === sessionStorage.getItem(asked));
  sessionStorage.removeItem(asked);
  const fields = new Map(tap?.fields);
  const form = tap && formOf(tap, fields);
  if (form) {
    fill(tap, fields, form, doneAt);
  }
}
