// What a year of temperatures does at a threshold, as package crossing has it.
const flatSlope = 0.08; // K a day, under which no day can be told

// soilAt returns the temperature of a year, 365 °C at 0:00 of each day, at a
// moment.
function soilAt(year, day) {
  const at = wrapDay(day) - 1, i = Math.floor(at);
  return year[i] + (at - i) * (year[(i + 1) % yearDays] - year[i]);
}

// findCrossing returns what a year does at a level in °C: reason "dated",
// "flat", "never" or "always"; day, in [1, 366), and slope in K a day where it
// crosses; origin and summit, 0:00 of the coldest and the warmest day, the
// other way around when cooling.
function findCrossing(year, threshold, cooling) {
  const sign = cooling ? -1 : 1, level = sign * threshold;
  let lowest = 0, highest = 0;
  for (let i = 0; i < yearDays; i++) {
    if (sign * year[i] < sign * year[lowest]) lowest = i;
    if (sign * year[i] > sign * year[highest]) highest = i;
  }
  const found = { origin: lowest + 1, summit: highest + 1 };
  if (sign * year[lowest] >= level) return { ...found, reason: cooling ? "never" : "always" };
  if (sign * year[highest] < level) return { ...found, reason: cooling ? "always" : "never" };
  let i = lowest;
  while (sign * year[(i + 1) % yearDays] < level) i++;
  const at = offset => sign * year[(i + offset + yearDays) % yearDays];
  const { part, slope } = riseTo(at(-1), at(0), at(1), at(2), level);
  return { ...found, day: wrapDay(i + 1 + part), slope, reason: slope < flatSlope ? "flat" : "dated" };
}

// riseTo returns where, in (0, 1], the cubic through four equally spaced
// values first reaches the level between the middle two, and its slope there
// per step.
function riseTo(before, y0, y1, after, level) {
  const c1 = y1 - y0, c2 = (after - y1 - y0 + before) / 4, c3 = (after - 3 * y1 + 3 * y0 - before) / 6;
  const value = u => y0 + u * (c1 + (u - 1) * (c2 + c3 * (u - 0.5)));
  let lo = 0, hi = 1;
  for (let n = 0; n < 40; n++) {
    const mid = (lo + hi) / 2;
    if (value(mid) < level) lo = mid;
    else hi = mid;
  }
  const h = 1e-4;
  return { part: hi, slope: (value(hi + h) - value(hi - h)) / (2 * h) };
}
