// Strips of a year: where in it the reader stands.
const svgSpace = "http://www.w3.org/2000/svg";
const stripHeight = 20;

function svgElement(name, attributes) {
  const e = document.createElementNS(svgSpace, name);
  for (const [key, value] of Object.entries(attributes)) e.setAttribute(key, value);
  return e;
}

// markToday draws a line for today into every strip under an element.
function markToday(under) {
  const today = todayOfYear();
  for (const strip of under.querySelectorAll("svg.strip")) {
    if (!strip.querySelector(".today")) strip.append(svgElement("path", { class: "today", d: `M${today - 1} 0V${stripHeight}` }));
  }
  const scale = under.querySelector(".months");
  if (scale && !under.querySelector(".marks")) scale.after(element("p", { class: "marks" }, "The line across is today, ", element("span", { "data-day": today }, dateText(today)), "."));
}

// stripOf draws a calendar, {ahead, from, to, end} in unwrapped days, as the
// strips of the tables are drawn.
function stripOf(ahead, from, to, end) {
  const strip = svgElement("svg", { class: "strip", viewBox: `0 0 ${yearDays} ${stripHeight}`, preserveAspectRatio: "none", "aria-hidden": "true" });
  for (const [status, begin, finish, top] of [["ahead", ahead, from, 7], ["ontime", from, to, 0], ["catchup", to, end, 7]]) {
    let x = wrapDay(begin) - 1;
    for (let length = Math.min(finish - begin, yearDays); length > 0; x = 0) {
      const piece = Math.min(length, yearDays - x);
      strip.append(svgElement("rect", { class: status, x, y: top, width: piece, height: stripHeight - top }));
      length -= piece;
    }
  }
  return strip;
}
