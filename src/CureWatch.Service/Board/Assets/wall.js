// Makes what a wall says smaller, step by step, until all of it fits: nobody scrolls a screen that hangs out of reach.

const least = 5;
const [roomBeside, roomUnder] = [1.1, 1.35]; // so much larger than drawn the letters still fit
const root = document.documentElement;

function fit() {
  for (let tenths = 10; tenths >= least; tenths--) {
    root.className = `fit-${tenths}`;
    if (root.scrollHeight <= window.innerHeight) {
      return;
    }
  }
}

// A chart is as wide and as high as its card lets it be: what is drawn is stretched, its letters are not.
function stretch(chart) {
  const { width, height } = chart.getBoundingClientRect();
  if (width === 0 || height === 0) {
    return;
  }
  const drawn = chart.viewBox.baseVal;
  const [across, down] = [width / drawn.width, height / drawn.height];
  const letters = Math.min(roomBeside * across, roomUnder * down, Math.max(across, down));
  chart.setAttribute("preserveAspectRatio", "none");
  for (const text of chart.querySelectorAll("text")) {
    const place = (text.getAttribute("transform") ?? "").replace(/ ?scale\(.*$/, "");
    text.setAttribute("transform", `${place} scale(${letters / across} ${letters / down})`);
  }
}

const cards = new ResizeObserver(changed => changed.forEach(card => stretch(card.target))); // a line at the top takes some of their height

function lay() {
  fit();
  for (const chart of document.querySelectorAll(".wall .chart")) {
    stretch(chart);
    cards.observe(chart);
  }
}

document.addEventListener("shown", lay);
window.addEventListener("resize", lay);
lay();
