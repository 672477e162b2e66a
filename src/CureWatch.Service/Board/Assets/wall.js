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

function lay() {
  fit();
  document.querySelectorAll(".wall .chart").forEach(stretch);
}

document.addEventListener("shown", lay);
window.addEventListener("resize", lay);
new ResizeObserver(lay).observe(document.querySelector("header.top")); // that the service is away takes two lines there
lay();
