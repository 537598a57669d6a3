// The answer for a spot: every window in words, with the reader's readings.

// answerPanel returns a function that shows the answers of an edition for a
// spot in an element.
function answerPanel(panel, edition) {
  const notebook = readingNotes();
  let shown = null;

  const windowPart = (window, cell, year) => {
    const answer = answerOf(window, cell, year, notebook.list());
    const part = element("section", {}, element("h3", {}, window.title));
    const told = taleOf(window, answer, edition, todayOfYear());
    for (const { kind, text } of told) part.append(element("p", { class: "says-" + kind }, ...text.map(tokenElement)));
    if (cell.reason === "dated") {
      const c = calendarOf(window, cell);
      part.firstChild.after(stripOf(c.aheadFrom, c.ontimeFrom, c.ontimeTo, c.catchupTo), monthRow());
    }
    return part;
  };

  const draw = () => {
    const { spot, cell, region } = shown;
    const head = element("h2", {}, spot.name || positionText(spot));
    const where = element("p", { class: "quiet" }, spot.name ? positionText(spot) : "");
    if (region) where.append(spot.name ? ", in " : "In ", element("a", { href: settings.root + "regions/" + region.slug + ".html" }, region.name));
    panel.replaceChildren(head, where);
    if (spot.note) panel.append(element("p", { class: "quiet" }, spot.note));
    edition.index.windows.forEach((window, i) => panel.append(windowPart(window, cell.windows[i], cell.year)));
    if (cell.year && cell.windows.some(w => w.reason === "dated")) panel.append(notebook.part(draw));
    panel.append(
      element("p", { class: "quiet" }, edition.index.cautions[0] + " ", cautionLink()),
    );
    markToday(panel);
    rewrite(panel);
  };

  document.addEventListener("weekband:choice", () => { if (shown) draw(); });
  return (spot, cell, region) => {
    shown = { spot, cell, region };
    draw();
    panel.hidden = false;
  };
}

// cautionLink leads to the cautions in full, which a page in a frame has not.
function cautionLink() {
  const target = document.getElementById("about-title") ? "#about-title" : settings.root + "index.html#about-title";
  return element("a", { href: target }, "Before you act");
}

function positionText(spot) {
  const side = (value, plus, minus) => Math.abs(value).toFixed(2) + "° " + (value < 0 ? minus : plus);
  return side(spot.lat, "N", "S") + ", " + side(spot.lon, "E", "W");
}

// monthRow is the scale under a strip.
function monthRow() {
  return element("p", { class: "months", "aria-hidden": "true" }, ...settings.names.short.map(name => element("span", {}, name.slice(0, 1))));
}

// tokenElement turns a part of a tale into text, or into an element that is
// written again when the reader's choice changes.
function tokenElement(token) {
  if (typeof token === "string") return token;
  const attributes = {};
  for (const key of ["from", "to", "day", "celsius", "kelvin"]) if (key in token) attributes["data-" + key] = token[key];
  if (token.full) attributes["data-full"] = "";
  const text = element("span", attributes, tokenText(token));
  return token.strong ? element("strong", {}, text) : text;
}
