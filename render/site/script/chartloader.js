// Draws the charts of a page. Each is a <figure class="chart"> with its options
// as JSON and its figures as a table. The library is loaded when the first
// comes near the screen; when that fails, or nothing runs, the table stays.

const chartPaper = 660; // px, width of a chart on a printed sheet
const chartScript = typeof document === "undefined" ? null : document.currentScript;
const chartsDrawn = new Map(); // figure → {view, board, text}
let chartLibrary = null; // a promise of it

// chartChoice returns the units and the order of dates the reader chose.
function chartChoice() {
  const data = document.documentElement.dataset;
  return { fahrenheit: data.unit !== "C", dayFirst: data.order === "day-first" };
}

// chartColour returns a function that turns the name of a custom property into
// a colour the library reads: the browser mixes it with itself in sRGB.
function chartColour(figure) {
  const probe = document.createElement("span");
  probe.hidden = true;
  figure.append(probe);
  const known = new Map();
  const find = name => {
    probe.style.color = "";
    probe.style.color = `var(${name})`;
    const plain = getComputedStyle(probe).color;
    probe.style.color = `color-mix(in srgb, ${plain}, ${plain})`;
    const [r, g, b, alpha = 1] = getComputedStyle(probe).color.match(/-?[\d.]+(e-?\d+)?%?/g).map(parseFloat);
    const scale = getComputedStyle(probe).color.startsWith("color(") ? 255 : 1;
    const [red, green, blue] = [r, g, b].map(v => Math.round(Math.min(Math.max(v * scale, 0), 255)));
    return `rgba(${red},${green},${blue},${alpha})`;
  };
  const colour = name => {
    if (!known.has(name)) known.set(name, find(name));
    return known.get(name);
  };
  return { colour, done: () => probe.remove() };
}

// chartRedraw draws a chart again for the room, colours and choice there are.
function chartRedraw(figure) {
  const drawn = chartsDrawn.get(figure);
  const printing = figure.classList.contains("printing");
  drawn.board.style.height = `${printing ? figure.dataset.paper : figure.dataset.height}px`;
  const width = printing ? Math.min(chartPaper, drawn.board.clientWidth) : drawn.board.clientWidth;
  if (width === 0) return; // not shown
  const { colour, done } = chartColour(figure);
  try {
    drawn.view.clear(); // of what the pointer lit up, too
    drawn.view.resize({ width, height: drawn.board.clientHeight });
    const look = { width, height: drawn.board.clientHeight, colour, font: getComputedStyle(figure).fontFamily, choice: chartChoice() };
    drawn.view.setOption(chartOption(drawn.text, look));
  } finally {
    done();
  }
}

// chartLoad loads the library, once, from beside this script.
function chartLoad() {
  chartLibrary ??= new Promise((resolve, reject) => {
    const script = document.createElement("script");
    script.src = new URL("echarts.js", chartScript.src).href;
    script.onload = () => (window.echarts ? resolve(window.echarts) : reject(new Error("echarts.js defines no echarts")));
    script.onerror = () => reject(new Error(`${script.src} cannot be loaded`));
    document.head.append(script);
  });
  return chartLibrary;
}

// chartDraw draws the chart of a figure for the first time, its table folded.
function chartDraw(figure, library) {
  if (chartsDrawn.has(figure)) return;
  const board = figure.querySelector(".board");
  const text = figure.querySelector('script[type="application/json"]').textContent;
  try {
    const view = library.init(board, null, { renderer: "canvas", width: board.clientWidth, height: board.clientHeight });
    chartsDrawn.set(figure, { view, board, text });
    chartRedraw(figure);
  } catch (error) {
    chartFail(figure, error);
    return;
  }
  figure.classList.replace("waiting", "drawn");
  figure.querySelector(".says")?.setAttribute("aria-hidden", "true"); // the board says it
  let width = board.clientWidth;
  new ResizeObserver(() => {
    if (board.clientWidth === width || figure.classList.contains("printing")) return;
    width = board.clientWidth;
    chartRedraw(figure);
  }).observe(board);
}

// chartFail shows the table in place of a chart.
function chartFail(figure, error) {
  console.warn(`chart ${figure.id}: ${error.message}; its table is shown`);
  chartsDrawn.get(figure)?.view.dispose();
  chartsDrawn.delete(figure);
  figure.classList.remove("waiting", "drawn");
  for (const details of figure.querySelectorAll("details")) details.open = true;
}

// chartsPrint makes charts ready for paper, where all is light, or for the
// screen again. What is not drawn yet prints as its table.
function chartsPrint(figures, printing) {
  for (const figure of figures) {
    if (!chartsDrawn.has(figure) && figure.classList.contains("waiting")) {
      if (printing && window.echarts && figure.querySelector(".board").clientWidth > 0) chartDraw(figure, window.echarts);
      else for (const details of figure.querySelectorAll("details")) details.open = printing;
    }
    figure.classList.toggle("printing", printing);
    if (chartsDrawn.has(figure)) chartRedraw(figure);
  }
}

// startCharts finds the charts of the page and waits for them to come near.
function startCharts() {
  const figures = [...document.querySelectorAll("figure.chart")];
  for (const figure of figures) {
    figure.classList.add("waiting");
    figure.querySelector(".board").style.height = `${figure.dataset.height}px`;
    for (const details of figure.querySelectorAll("details")) details.open = false;
  }
  const near = new IntersectionObserver(entries => {
    for (const { isIntersecting, target } of entries) {
      if (!isIntersecting) continue;
      near.unobserve(target);
      chartLoad().then(library => chartDraw(target, library)).catch(error => chartFail(target, error));
    }
  }, { rootMargin: "600px" });
  figures.forEach(figure => near.observe(figure));
  const again = () => [...chartsDrawn.keys()].forEach(chartRedraw);
  document.addEventListener("weekband:choice", again);
  matchMedia("(prefers-color-scheme: dark)").addEventListener("change", again);
  addEventListener("beforeprint", () => chartsPrint(figures, true));
  addEventListener("afterprint", () => chartsPrint(figures, false));
}

if (chartScript) startCharts();
