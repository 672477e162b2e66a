// Makes what a wall says smaller, step by step, until all of it fits: nobody scrolls a screen that hangs out of reach.

const least = 5;
const root = document.documentElement;

function fit() {
  for (let tenths = 10; tenths >= least; tenths--) {
    root.className = `fit-${tenths}`;
    if (root.scrollHeight <= window.innerHeight) {
      return;
    }
  }
}

document.addEventListener("shown", fit);
window.addEventListener("resize", fit);
fit();
