// What time it is by the service's clock, as far as this page has heard.

const steady = 2000; // by so much a beat may be late

export const clock = document.getElementById("clock");
export const aside = Number(document.documentElement.dataset.aside ?? 0); // when the phone put this page aside; 0 where the service gave it now

let serverAt = Date.parse(clock.dateTime) + (aside && Date.now() - aside); // what time the service last said it is,
let serverHeardAt = cameAt();                // and when it said so, by the clock that no one sets
let serverHeardOn = Date.now() - (performance.now() - serverHeardAt); // and by the one that goes on while the phone sleeps
let isSteady = true;                         // whether the service's clock goes on as this page's does: a demo's may not

// The phone stamps its taps with it. On some phones performance.now() stands still while they sleep.
export const now = () => serverAt + Math.max(performance.now() - serverHeardAt, Date.now() - serverHeardOn);

export const keepsTime = () => isSteady;

export function itIs(at) {
  isSteady = Math.abs(at - now()) < steady;
  serverAt = at;
  serverHeardAt = performance.now();
  serverHeardOn = Date.now();
}

// When this page came: its scripts may have taken seconds since.
function cameAt() {
  return (aside ? 0 : performance.getEntriesByType("navigation")[0]?.responseStart) || performance.now();
}
