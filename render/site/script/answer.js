// The answer for a spot: what `weekband lookup --json` prints for a window,
// computed in the page.
const earlyYear = 1.2815515655446004; // deviate of one year in ten
const tellsLittle = 0.99; // share of the usual doubt that a reading leaves when it is too far from the season

// calendarOf returns the days at which one status gives way to the next, for
// a cell with a day; they may lie outside [1, 366).
function calendarOf(window, cell) {
  return { aheadFrom: cell.from - window.ahead_days, ontimeFrom: cell.from, ontimeTo: cell.day, catchupTo: cell.to };
}

// answerOf returns the answer of a window. cell is {reason, beyond, day, from,
// to, spread, error}; year is the typical year of the cell's soil, 365 °C, or
// null; readings are [{date: "2027-03-25", soil: °C}]. Of the answer, behind is
// no part of the JSON: what its words need besides.
function answerOf(window, cell, year, readings) {
  const answer = { window: window.id, title: window.title, reason: cell.reason }, behind = { cell };
  Object.defineProperty(answer, "behind", { value: behind });
  if (cell.beyond) answer.far_from_soil_thermometers = true;
  if (cell.reason !== "dated") return answer;
  Object.assign(behind, { calendar: calendarOf(window, cell), doubt: Math.hypot(cell.spread, cell.error) });
  behind.early = cell.day - earlyYear * behind.doubt;
  behind.late = cell.day + earlyYear * behind.doubt;
  Object.assign(answer, { dates: datesOf(cell, behind), crossing_day: wrapDay(cell.day), spread_days: cell.spread });
  if (cell.error > 0) answer.standard_error_days = cell.error;
  if (!year) return answer;
  const off = window.threshold_c - soilAt(year, cell.day); // the cell's own day, not its block's
  const soil = year.map(t => t + off);
  const typical = findCrossing(soil, window.threshold_c, window.direction === "cooling");
  answer.worth = worthOf(window, soil, typical, behind);
  if (readings && readings.length > 0) expectThisYear(answer, window, soil, typical, readings);
  return answer;
}

function datesOf(cell, { calendar, early, late }) {
  return {
    week: weekOfDay(cell.day), crossing: isoDay(cell.day), early_year: isoDay(early), late_year: isoDay(late),
    ahead_from: isoDay(calendar.aheadFrom), ontime_from: isoDay(calendar.ontimeFrom),
    ontime_to: isoDay(calendar.ontimeTo), catchup_to: isoDay(calendar.catchupTo),
  };
}

// worthOf returns what applications come to, and keeps it behind the answer.
function worthOf(window, soil, typical, behind) {
  const { calendar } = behind, { origin } = typical;
  const treatment = { halfLife: window.half_life_days, q10: window.q10, reference: window.reference_c };
  const season = worthSeason(soil, window.direction === "cooling", origin, treatment, behind.doubt);
  const costs = behind.costs = costsOf(season, calendar);
  const worth = {};
  for (const [key, cost] of [["ahead_from", costs.aheadFrom], ["ontime_from", costs.ontimeFrom], ["ontime_to", costs.ontimeTo],
    ["two_weeks_late", costs.twoWeeksLate], ["catchup_to", costs.catchupTo], ["best", costs.best]]) worth[key] = cost.worth;
  worth.best_day = isoDay(costs.best.day);
  const onset = daysTo(origin, calendar.ontimeTo);
  const second = secondDue(season, onset - (calendar.ontimeTo - calendar.ontimeFrom) / 2, window.second_below, window.second_until);
  if (second !== null) {
    behind.second = calendar.ontimeTo + (second - onset);
    worth.second_due = isoDay(behind.second);
  }
  if (window.seeding) {
    const kept = behind.seeding = keptBySeeding(window.seeding, calendar);
    worth.seeding_last_day = isoDay(kept.closedFrom);
    if (kept.lost !== 0) worth.ontime_days_lost_to_seeding = kept.lost;
  }
  return worth;
}

// expectThisYear adds what readings make of this year, or behind the answer
// what is wrong with them.
function expectThisYear(answer, window, soil, typical, readings) {
  const { cell, doubt } = answer.behind;
  const list = readings.map(r => ({ day: dayOfDate(r.date) + 0.5, soil: r.soil })); // noon
  const troubles = cell.spread > 0 ? readingTroubles(soil, list) : [{ spread: cell.spread }];
  if (troubles.length > 0) {
    answer.behind.troubles = troubles;
    return;
  }
  const place = {
    normal: soil, level: window.threshold_c, cooling: window.direction === "cooling", spread: cell.spread, error: cell.error, ...typical,
  };
  const o = typical.reason === "dated" ? outlook(place, list) : { state: "undated", departure: 0 };
  answer.this_year = { state: o.state, departure_c: o.departure };
  Object.assign(answer.behind, { outlook: o, typical, readings: list.length });
  if (o.state !== "expected") return;
  const sd = (o.late - o.early) / (2 * earlyYear);
  o.far = sd > tellsLittle * doubt;
  Object.assign(answer.this_year, {
    crossing: isoDay(o.day), early: isoDay(o.early), late: isoDay(o.late), crossing_day: wrapDay(o.day), spread_days: sd,
  });
}
