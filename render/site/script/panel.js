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
      part.firstChild.after(stripOf(c.aheadFrom, c.ontimeFrom, c.ontimeTo, c.catchupTo), monthRow(), stripKey());
    }
    return part;
  };

  const draw = () => {
    const { spot, cell, region } = shown;
    const head = element("h2", {}, spot.name || positionText(spot));
    const where = element("p", { class: "quiet" }, spot.name ? positionText(spot) : "");
    if (region) where.append(spot.name ? ", in " : "In ", wayTo("regions/" + region.slug + ".html", region.name));
    panel.replaceChildren(head, where, element("p", { class: "heed" }, edition.index.cautions[0] + " ", wayTo("index.html#about-title", "Before you act")));
    if (spot.note && region) panel.append(element("p", {}, spot.note + " ", wayTo("regions/" + region.slug + ".html", "The weeks of the whole region")));
    edition.index.windows.forEach((window, i) => panel.append(windowPart(window, cell.windows[i], cell.year)));
    if (cell.year && cell.windows.some(w => w.reason === "dated")) panel.append(notebook.part(draw));
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

// wayTo is a link to a page of the edition; from a page in a frame it opens
// beside it.
function wayTo(file, words) {
  const id = file.split("#")[1];
  const here = id && document.getElementById(id) ? "#" + id : settings.root + file;
  const framed = document.body.classList.contains("bare") ? { target: "_blank", rel: "noopener" } : {};
  return element("a", { href: here, ...framed }, words);
}

// stripKey names the colours of a strip.
function stripKey() {
  const words = [["ahead", "ahead of time"], ["ontime", "on time"], ["catchup", "catching up"]];
  return element("ul", { class: "key" }, ...words.map(([status, text]) => element("li", {}, element("span", { class: "swatch " + status }), text)));
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
