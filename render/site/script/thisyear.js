// This year from the reader's own readings, in words.

// thisYearWords says what the readings make of this year, nothing without
// them.
function thisYearWords(window, { behind, this_year: year }) {
  if (behind.troubles) return troubleWords(behind.troubles);
  if (!year) return [];
  const many = behind.readings > 1;
  if (year.state === "undated") return [`Your ${many ? "readings" : "reading"} cannot tell this year's week: no week stands out here.`];
  const { outlook: o } = behind, level = atTemperature(window.threshold_c);
  const text = [many ? `The latest of your ${behind.readings} readings, on ` : "Your reading on ", onDay(o.latest), many ? ", is " : " is ", { kelvin: Math.abs(o.departure) }, (o.departure < 0 ? " colder" : " warmer") + " than usual"];
  if (o.far) return [...text, ", and too far from the season to tell this year's week from it."];
  if (o.state === "reached") return [...text, ": this year ", level, " is reached already."];
  if (o.state === "unlikely") return [...text, ": this year ", level, " is not expected to be reached."];
  return [...text, ": this year ", level, " is expected in the week of ", { ...inWeek(weekOfDay(o.day)), strong: true },
    " (in one year of ten before ", onDay(o.early), ", in one of ten after ", onDay(o.late), ")" + shiftWords(o.day - behind.typical.day) + "."];
}

// shiftWords says how far this year's day is from the typical one.
function shiftWords(days) {
  if (Math.abs(days) < 1) return ", as in a typical year";
  return `, ${roughDays(Math.abs(days))} ${days < 0 ? "earlier" : "later"} than in a typical year`;
}

// troubleWords says which readings cannot be meant.
function troubleWords(troubles) {
  if (troubles.some(r => "spread" in r)) return ["How far years differ is not known here, so a reading tells nothing of this year."];
  return troubles.flatMap(r => ["Your reading of ", atTemperature(r.soil), " on ", onDay(r.day), " is ", { kelvin: Math.abs(r.off) },
    (r.off < 0 ? " colder" : " warmer") + " than usual, and cannot be meant: is it in the right unit, from the map's depth, and from this day? "]);
}

const coldestSoil = -40, hottestSoil = 60; // °C; soil at the depths of maps lies far within

// readingProblem says what is wrong with a reading that someone entered, a date
// "2027-03-25" and °C; "" when nothing is.
function readingProblem(date, soil, today = isoToday()) {
  if (!isDate(date)) return "Enter the date of the reading, such as 2027-03-25.";
  if (date > today) return "That date is still to come. Enter the day on which you measured.";
  if (!Number.isFinite(soil)) return `Enter the soil's temperature as a number, such as ${temperatureText(8).replace(/ .*/, "")}.`;
  if (soil < coldestSoil || soil > hottestSoil) return `${temperatureText(soil)} is no temperature of soil: is it in the right unit?`;
  return "";
}
