// How the charts write days, temperatures, heights and shares. Days are those
// of season.js.

// chartDate writes the date a moment falls on.
function chartDate(day, months, dayFirst) {
  const date = monthDay(day), month = months[date.month - 1];
  return dayFirst ? `${date.day} ${month}` : `${month} ${date.day}`;
}

// chartWeek returns the first day of the week a moment falls in and the first
// after it.
function chartWeek(day) {
  const { from, to } = weekSpan(weekOfDay(day));
  return [from, to];
}

// chartSpan writes the dates of the whole days in [from, to).
function chartSpan(from, to, months, dayFirst) {
  const first = monthDay(from), last = monthDay(to - 1), month = months[first.month - 1];
  if (first.month !== last.month) return `${chartDate(from, months, dayFirst)}–${chartDate(to - 1, months, dayFirst)}`;
  return dayFirst ? `${first.day}–${last.day} ${month}` : `${month} ${first.day}–${last.day}`;
}

// chartStatus returns the index of the status of a moment under a calendar of
// four days: resting, ahead, on time, catching up, past.
function chartStatus([ahead, from, to, past], day) {
  const since = daysTo(ahead, day);
  if (since < from - ahead) return 1;
  if (since < to - ahead) return 2;
  if (since < past - ahead) return 3;
  return since < past - ahead + (yearDays - (past - ahead)) / 2 ? 4 : 0;
}

// chartNumber writes a number with a true minus sign and commas.
function chartNumber(v) {
  const digits = String(Math.abs(Math.round(v))).replace(/\B(?=(\d{3})+$)/g, ",");
  return Math.round(v) < 0 ? `−${digits}` : digits;
}

// chartTenths writes a number with a decimal when it is not whole.
function chartTenths(v) {
  return String(+v.toFixed(1)).replace("-", "−");
}

// chartQuantity tells how a quantity of the options, in °C, m, days, degrees
// or percent, is written by choice.
function chartQuantity(name, spec, choice) {
  const same = v => v;
  switch (name) {
    case "temperature":
      return choice.fahrenheit
        ? { convert: v => v * 1.8 + 32, difference: v => v * 1.8, write: v => `${chartNumber(v)} °F`, exact: v => `${chartTenths(v)} °F` }
        : { convert: same, difference: same, write: v => `${chartNumber(v)} °C`, exact: v => `${chartTenths(v)} °C` };
    case "elevation":
      return choice.fahrenheit
        ? { convert: v => v / 0.3048, write: v => `${chartNumber(v)} ft` }
        : { convert: same, write: v => `${chartNumber(v)} m` };
    case "latitude":
      return { convert: same, write: v => `${+Math.abs(v).toFixed(2)}° ${v < 0 ? "S" : "N"}` };
    case "share":
      return { convert: same, write: v => `${Math.round(v)} %` };
    case "day":
      return { convert: same, write: v => chartDate(v, spec.months, choice.dayFirst) };
  }
  return { convert: same, write: String };
}

// chartMonthBegins lists the first moments of the months in [from, to].
function chartMonthBegins(from, to) {
  const begins = [];
  for (let year = Math.floor((from - 1) / yearDays) - 1; year * yearDays < to; year++) {
    for (let month = 0; month < 12; month++) {
      const day = year * yearDays + daysBefore[month] + 1;
      if (day >= from && day <= to) begins.push(day);
    }
  }
  return begins;
}

// chartMonthMiddles lists the middles of the months of which enough days, at
// least so many, lie in [from, to].
function chartMonthMiddles(from, to, days) {
  const edges = [from, ...chartMonthBegins(from, to).filter(d => d > from && d < to), to];
  const middles = [];
  for (let i = 1; i < edges.length; i++) {
    if (edges[i] - edges[i - 1] >= days) middles.push((edges[i] + edges[i - 1]) / 2);
  }
  return middles;
}

// chartDateTicks lists dates for an axis of days: the first of every month
// and, of a shorter stretch, days between.
function chartDateTicks(from, to) {
  const offsets = to - from > 200 ? [0] : to - from > 70 ? [0, 14] : [0, 7, 14, 21];
  const ticks = [];
  for (const begin of chartMonthBegins(from - 31, to)) {
    for (const offset of offsets) {
      if (begin + offset >= from && begin + offset <= to) ticks.push(begin + offset);
    }
  }
  return ticks;
}

// chartRound returns round steps that cover [low, high] in about so many.
function chartRound(low, high, count) {
  const rough = (high - low) / count;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = power * [1, 2, 5, 10].find(s => s * power >= rough);
  const steps = [];
  for (let k = Math.floor(low / step); ; k++) {
    steps.push(+(k * step).toPrecision(12));
    if (k * step >= high) return steps;
  }
}
