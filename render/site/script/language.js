// Dates and temperatures as the reader prefers to read them. settings.names
// holds the language's forms, choice the reader's {unit, order}.

// filled puts values into the places of a pattern such as "{month} {day}".
function filled(pattern, values) {
  return pattern.replace(/\{(\w+)\}/g, (_, name) => values[name]);
}

// dateText writes the date a moment falls on, "Mar 12", or "March 12" in full.
function dateText(day, order = choice.order, full = false) {
  const date = monthDay(day), { months, short, orders } = settings.names;
  return filled(orders[order].date, { month: (full ? months : short)[date.month - 1], day: date.day });
}

// spanText writes the dates of the whole days in [from, to), "Mar 12–18" or
// "Feb 26–Mar 4", or "February 26 to March 4" in full. One day or less is
// written as one date.
function spanText(from, to, order = choice.order, full = false) {
  const last = to - 1, { months, short, orders, dash, to: between } = settings.names;
  if (last <= from) return dateText(from, order, full);
  const a = monthDay(from), b = monthDay(last);
  if (a.month === b.month && b.day >= a.day && last - from < yearDays / 2) {
    return filled(orders[order].span, { month: (full ? months : short)[a.month - 1], from: a.day, to: b.day });
  }
  return filled(full ? between : dash, { from: dateText(from, order, full), to: dateText(last, order, full) });
}

// weekText writes the dates of a week, 1 to 52.
function weekText(week, order = choice.order) {
  const { from, to } = weekSpan(week);
  return spanText(from, to, order);
}

// tenths writes a number with at most one decimal, halves away from zero.
function tenths(value) {
  const n = Math.round(Math.abs(value) * 10) / 10;
  return (value < 0 && n > 0 ? "-" : "") + n;
}

// temperatureText writes a temperature given in °C, "55 °F" or "12.8 °C".
function temperatureText(celsius, unit = choice.unit) {
  return tenths(unit === "F" ? celsius * 1.8 + 32 : celsius) + " °" + unit;
}

// differenceText writes a difference of temperatures given in K, "5.0 °F".
function differenceText(kelvin, unit = choice.unit) {
  return (unit === "F" ? kelvin * 1.8 : kelvin).toFixed(1) + " °" + unit;
}

// temperatureFrom reads a number, with a point or a comma and with or without
// its own unit, as °C; NaN when it is none.
function temperatureFrom(text, unit) {
  const read = /^([-+−]?\d+(?:[.,]\d+)?)\s*(?:°?\s*([FC]))?$/i.exec(text.trim());
  if (!read) return NaN;
  const value = Number(read[1].replace("−", "-").replace(",", "."));
  return (read[2] || unit).toUpperCase() === "F" ? (value - 32) / 1.8 : value;
}

// tokenText writes a part of a tale: a text, or a token {day}, {from, to},
// {celsius} or {kelvin}. Dates with full have their months in full.
function tokenText(token) {
  if (typeof token === "string") return token;
  if ("celsius" in token) return temperatureText(token.celsius);
  if ("kelvin" in token) return differenceText(token.kelvin);
  if ("day" in token) return dateText(token.day, choice.order, token.full);
  return spanText(token.from, token.to, choice.order, token.full);
}
