// Readings of the reader's own soil thermometer. They stay on the device.
const readingsKey = "weekband.readings";

// readingNotes keeps the readings of this season and makes the form to enter
// them. A reading is {date: "2027-03-25", soil: °C}.
function readingNotes() {
  const isReading = r => r && /^\d{4}-\d\d-\d\d$/.test(r.date) && Number.isFinite(r.soil);
  const recent = r => Date.now() - Date.parse(r.date) < 200 * 86400e3; // a reading of last season says nothing
  let notes = (kept(readingsKey) || []).filter(isReading).filter(recent);
  let open = false, problem = "", draft = { date: isoToday(), value: "" };

  // again draws the answer anew and gives the focus back.
  const again = (draw, where) => {
    draw();
    document.querySelector(".reading " + where)?.focus();
  };
  const change = (list, draw) => {
    notes = list;
    keep(readingsKey, notes);
    again(draw, "summary");
  };

  const line = (note, draw) => {
    const remove = element("button", { type: "button", class: "plain" }, "Remove");
    remove.addEventListener("click", () => change(notes.filter(n => n !== note), draw));
    const what = element("span", {}, element("span", { "data-day": dayOfDate(note.date) }), ": ", element("span", { "data-celsius": note.soil }));
    return element("li", {}, what, remove);
  };

  const form = draw => {
    const date = element("input", { type: "date", required: "", value: draft.date, max: isoToday() });
    const value = element("input", { type: "text", inputmode: "decimal", required: "", autocomplete: "off", size: "5", value: draft.value, ...(problem && { "aria-describedby": "reading-problem" }) });
    const add = element("button", { type: "submit" }, "Add the reading");
    const f = element("form", {},
      element("label", {}, "Date", date), element("label", {}, `Soil, °${choice.unit}`, value), add);
    f.addEventListener("submit", event => {
      event.preventDefault();
      const soil = temperatureFrom(value.value, choice.unit);
      problem = readingProblem(date.value, soil) || (recent({ date: date.value }) ? "" : "That reading is of an earlier season, and says nothing of this one.");
      draft = problem ? { date: date.value, value: value.value } : { date: isoToday(), value: "" };
      if (problem) return again(draw, 'input[inputmode="decimal"]');
      change([...notes.filter(n => n.date !== date.value), { date: date.value, soil }], draw);
    });
    return f;
  };

  return {
    list: () => notes,
    part: draw => {
      const fold = element("details", { class: "reading" },
        element("summary", {}, "Your own soil thermometer"),
        element("p", { class: "quiet" }, "Measure at the depth of the map, in the morning and in the evening, and enter the mean: the expectation for this year shifts."),
        form(draw));
      if (problem) fold.append(element("p", { role: "alert", id: "reading-problem" }, problem));
      if (notes.length > 0) fold.append(element("ul", {}, ...notes.map(note => line(note, draw))));
      fold.open = open || notes.length > 0;
      fold.addEventListener("toggle", () => { open = fold.open; });
      return fold;
    },
  };
}
