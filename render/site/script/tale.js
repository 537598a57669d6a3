// The answer in words. A tale is a list of {kind, text}; text is a list of
// texts and of tokens, which tokenText writes as the reader prefers.

// onDay, during, inWeek and atTemperature are the tokens of a tale.
const onDay = day => ({ day, full: true });
const during = (from, to) => ({ from, to, full: true, strong: true });
const inWeek = week => ({ ...weekSpan(week), full: true });
const atTemperature = celsius => ({ celsius });

// taleOf tells what an answer of answerOf says of a window. today is 0:00 of
// today's date.
function taleOf(window, answer, edition, today) {
  const { measures } = edition.index, { behind } = answer;
  if (answer.reason !== "dated") return [{ kind: "undated", text: undatedWords(window, answer.reason, measures) }];
  const parts = [
    ["weeks", weeksWords(behind)], ["end", endWords(window, behind)], ["today", todayWords(behind.calendar, today, knownThisYear(answer))],
    ["year", thisYearWords(window, answer)], ["typical", typicalWords(window, answer, measures)],
    ["second", secondWords(window, behind)], ["seeding", seedingWords(window, behind)], ["sure", sureWords(window, answer)],
  ];
  return parts.filter(([, text]) => text.length > 0).map(([kind, text]) => ({ kind, text }));
}

// capital begins a sentence with what is measured.
function capital(text) {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function undatedWords(window, reason, measures) {
  const level = atTemperature(window.threshold_c), what = capital(measures);
  switch (reason) {
    case "never":
      return [what + (window.direction === "cooling" ? " is never as warm as " : " never reaches "), level, " in a typical year here."];
    case "always":
      return [what + " stays above ", level, " all through a typical year here: no week stands out."];
    case "flat":
      return [what + " hovers near ", level, " for weeks in a typical year here, so no week can be told; go by a thermometer and local advice."];
  }
  return ["No data here: the point lies off the land the normals cover."];
}

// weeksWords says when, and what being early or late costs.
function weeksWords({ calendar, costs }) {
  const text = ["On time: ", during(calendar.ontimeFrom, calendar.ontimeTo), ". "];
  if (!costs || costs.best.worth <= 0) {
    return [...text, "Ahead of time begins on ", onDay(calendar.aheadFrom), "; catching up ends on ", onDay(calendar.catchupTo), "."];
  }
  return [...text, ...earlyWords(costs), "; ", ...lateWords(costs), "."];
}

// earlyWords says what the begin of ahead of time costs, of what the best day
// would stop.
function earlyWords({ aheadFrom, best }) {
  const cost = 1 - aheadFrom.worth / best.worth;
  if (cost < hardlyAny) return ["Ahead of time is fine from ", onDay(aheadFrom.day), " and costs next to nothing"];
  const price = roughShare(cost, "the strength");
  if (cost < 0.5) return ["Ahead of time is fine from ", onDay(aheadFrom.day), " and costs " + price];
  return ["Ahead of time begins on ", onDay(aheadFrom.day), " but costs " + price];
}

// lateCost picks the day of catching up that tells most: when half of the
// weeds are up. Where that comes too late it is the end of catching up, where
// it comes too early two weeks after on time, if catching up lasts as long.
function lateCost({ ontimeTo, twoWeeksLate, catchupTo, halfUp: half }) {
  if (half.day >= ontimeTo.day && half.day <= catchupTo.day) return half;
  return half.day < ontimeTo.day && twoWeeksLate.day < catchupTo.day ? twoWeeksLate : catchupTo;
}

// lateWords says how many weeds are up then, and what can still be stopped.
function lateWords(costs) {
  const late = lateCost(costs), left = late.worth / (1 - late.emerged);
  if (late.emerged >= nearlyAll) return ["after ", onDay(late.day), " nearly all the weeds are up, and treating comes too late"];
  const rest = left >= nearlyAll ? "the rest" : left >= 0.6 ? "most of the rest" : roughShare(left, "the rest");
  return ["after ", onDay(late.day), " " + roughShare(late.emerged, "the weeds") + " are up, and treating still stops " + rest];
}

// endWords says when catching up ends.
function endWords(window, { calendar, costs }) {
  if (!costs || costs.best.worth <= 0 || window.worth_floor <= 0) return [];
  return ["Catching up ends on ", onDay(calendar.catchupTo), `: from then on an application would stop less than ${Math.round(100 * window.worth_floor)} % of the season's weeds.`];
}

// knownThisYear reports whether the reader's readings tell of this year, which
// then comes before what is typical.
function knownThisYear({ this_year: year, behind }) {
  return Boolean(year) && year.state !== "undated" && !behind.outlook.far;
}

// todayWords says where in the year the reader stands, by whole days; when more
// is known of this year it says so of a typical one.
function todayWords(calendar, today, typically) {
  const [ahead, from, to, end] = [calendar.aheadFrom, calendar.ontimeFrom, calendar.ontimeTo, calendar.catchupTo].map(Math.floor);
  const since = daysTo(ahead, today), text = typically ? ["In a typical year today, ", onDay(today)] : ["Today, ", onDay(today)];
  if (since < from - ahead) return [...text, ", is ahead of time; on time begins on ", onDay(from), ", " + roughWait(from - ahead - since) + "."];
  if (since < to - ahead) return [...text, ", is on time, until ", onDay(to - 1), "."];
  if (since < end - ahead) return [...text, ", is for catching up, until ", onDay(end - 1), "."];
  return [...text, ", is between seasons; ahead of time begins on ", onDay(ahead), ", " + roughWait(yearDays - since) + "."];
}

function typicalWords(window, answer, measures) {
  const { early, late } = answer.behind, verb = window.direction === "cooling" ? " falls to " : " reaches ";
  return [capital(measures) + verb, atTemperature(window.threshold_c), " in the week of ", inWeek(answer.dates.week),
    " in a typical year; in one year of ten before ", onDay(early), ", in one of ten after ", onDay(late), "."];
}

function secondWords(window, { second }) {
  if (second === undefined) return [];
  const left = roughShare(window.second_below === 0 ? 0.5 : window.second_below, "its strength");
  return ["After an application in the middle of on time a second is due about ", inWeek(weekOfDay(second)), `, when ${left} is left.`];
}

function seedingWords(window, { seeding, calendar }) {
  if (!seeding) return [];
  const text = ["Seeding grass on ", onDay(window.seeding.day), ": the last application that keeps it open is on ", onDay(seeding.closedFrom)];
  if (seeding.lost <= 0) return [...text, ", after on time."];
  if (seeding.open < 0.5) return [...text, "; no day of on time is left: treat or seed, not both."];
  return [...text, `; it costs ${Math.round(seeding.lost)} of the ${Math.round(calendar.ontimeTo - calendar.ontimeFrom)} days of on time.`];
}

// sureWords says how sure the week is, and what the shares are reckoned for.
function sureWords(window, answer) {
  const text = [];
  if (answer.standard_error_days > 0) text.push(`The typical week is expected to be off by about ${roughDays(Math.sqrt(2 / Math.PI) * answer.standard_error_days)}. `);
  if (answer.far_from_soil_thermometers) text.push("No station with soil thermometers is near: soil here is air and a general offset. ");
  if (answer.worth) text.push(`Shares are reckoned for a residual that halves in ${Math.round(window.half_life_days)} days, an illustration and no product; strength is what is left of it when the weeds come up.`);
  return text;
}
