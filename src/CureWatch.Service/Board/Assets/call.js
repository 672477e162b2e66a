// Calls somebody to a coat: by sound, light and vibration, in words too, once when it may be looked at, once before it closes and once when it is
// late. It reads what it calls to from the page, so it goes on without the service.

import { asOf } from "./board.js";
import { now } from "./clock.js";
import { mayBeSent, takenSince, waiting } from "./queue.js";
import { spoken } from "./tongue.js";

const lastCall = 60000;
const remembered = "curewatch-called";
const muted = "curewatch-muted";
const call = document.getElementById("call");
const loud = document.getElementById("loud");
let sound = null;
let lock = null;
let calledAt = -Infinity;

const called = new Set(JSON.parse(sessionStorage.getItem(remembered) ?? "[]"));

function stageOf(panel, at) {
  const look = Date.parse(panel.dataset.look);
  const by = Date.parse(panel.dataset.by);
  if (by < at) {
    return ["late", `${panel.dataset.coat}: ${panel.dataset.late}`];
  }
  if (by - lastCall < at) {
    return ["closing", spoken("{0}: level now", panel.dataset.coat)];
  }
  return look <= at ? ["look", spoken("{0}: look now", panel.dataset.coat)] : [null, null];
}

// Whether somebody has seen to a coat and the service does not know it yet: nobody is called to it. Its panel says so.
function isKept(panel, taps) {
  const form = panel.querySelector("form");
  const coat = form && new FormData(form);
  const has = form && [...taps, ...takenSince(asOf())].filter(t => t.action === new URL(form.action).pathname).map(t => new Map(t.fields)).some(told =>
    ["levelled", "reworked:re-wet"].includes(told.get("did"))
    && ["surface", "layer", "section"].every(name => (told.get(name) || coat.get(name)) === coat.get(name))); // what is not named is all of them
  const said = panel.querySelector(".kept");
  const words = has ? spoken("Told, and kept on this phone until the service hears it.") : "";
  if (said && said.textContent !== words) {
    said.textContent = words;
  }
  return has;
}

export function watch() {
  const taps = waiting().filter(mayBeSent); // another's is told once they are signed in again
  const panels = [...document.querySelectorAll("[data-call]")].filter(panel => !isKept(panel, taps));
  const at = now();
  const due = [];
  for (const panel of panels) { // one coat may stand in two places: it is called to once
    const [stage, words] = stageOf(panel, at);
    const key = `${panel.dataset.call}:${stage}`; // the deadline moves with the air: that is no new call
    if (stage && !called.has(key)) {
      called.add(key);
      due.push(words);
    }
  }
  if (due.length > 0) {
    sessionStorage.setItem(remembered, JSON.stringify([...called]));
    shout(due.join(". "));
  } else if (performance.now() - calledAt > 10000 && call.textContent !== "") {
    call.textContent = "";
  }
  document.body.classList.toggle("calling", performance.now() - calledAt < 3000);
  stayAwake(panels.length > 0);
  sayHowLoud(panels.length > 0);
}

function shout(words) {
  calledAt = performance.now();
  call.textContent = words;
  navigator.vibrate?.([400, 150, 400, 150, 400]);
  if (sound?.state === "running" && !localStorage.getItem(muted)) {
    [0, 0.45, 0.9].forEach(beep);
  }
}

function beep(delay) {
  const tone = sound.createOscillator();
  const volume = sound.createGain();
  tone.frequency.value = 880;
  volume.gain.setValueAtTime(0.4, sound.currentTime + delay);
  volume.gain.exponentialRampToValueAtTime(0.001, sound.currentTime + delay + 0.35);
  tone.connect(volume).connect(sound.destination);
  tone.start(sound.currentTime + delay);
  tone.stop(sound.currentTime + delay + 0.4);
}

// Browsers let a page be heard, and keep the screen on, only under conditions: where they do not, the page says so.
function sayHowLoud(isNeeded) {
  const isMuted = localStorage.getItem(muted) !== null;
  const isHeard = sound?.state === "running" && !isMuted;
  loud.hidden = !isNeeded && !isMuted;
  loud.querySelector("button").textContent = isHeard ? spoken("Sound off") : spoken("Sound on");
  loud.querySelector("span").textContent = [
    isHeard ? "" : spoken("No sound calls you yet."),
    isNeeded && !lock ? spoken("This phone may switch its screen off: set it to stay on.") : "",
  ].join(" ").trim();
}

async function stayAwake(isNeeded) {
  if (isNeeded && !lock && !document.hidden && "wakeLock" in navigator) {
    lock = {}; // asked for
    try {
      lock = await navigator.wakeLock.request("screen");
      lock.addEventListener("release", () => { lock = null; });
    } catch {
      lock = null;
    }
  } else if (!isNeeded && lock?.release) {
    lock.release();
  }
}

function unlock() {
  sound ??= new AudioContext();
  sound.resume();
}

document.addEventListener("pointerdown", unlock);
document.addEventListener("keydown", unlock);
loud.querySelector("button").addEventListener("click", () => {
  if (localStorage.getItem(muted) === null && sound?.state === "running" && loud.querySelector("button").textContent === spoken("Sound off")) {
    localStorage.setItem(muted, "yes");
  } else {
    localStorage.removeItem(muted);
    unlock();
    beep(0);
  }
});
