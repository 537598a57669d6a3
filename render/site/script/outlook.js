// When the soil will cross the threshold this year: the same days as package
// outlook, without a library.
const mostOff = 16; // K from normal; what lies beyond is another unit, depth or place

// readingTroubles returns {day, soil, normal, off} for every reading, {day,
// soil}, that cannot be meant at a place with a normal year of 365 °C.
function readingTroubles(normal, readings) {
  return readings.map(r => ({ ...r, normal: soilAt(normal, r.day) }))
    .map(r => ({ ...r, off: r.soil - r.normal }))
    .filter(r => !(Math.abs(r.off) <= mostOff));
}

// place: { normal: 365 °C, level: °C, cooling: bool, day, slope, origin: of the
// typical crossing, spread: days, error: days }; readings: [{ day, soil }], day
// from 1.0 = 1 January 0:00. They have passed readingTroubles.
function outlook(place, readings) {
  const sign = place.cooling ? -1 : 1, tenth = Math.log(9);
  const sd = Math.hypot(place.spread, place.error);
  const quantiles = (mean, sd, after) => {
    const scale = 1.2815515655446004 * sd / tenth;
    const before = 1 / (1 + Math.exp((mean - after) / scale));
    const at = p => { p = before + p * (1 - before); return mean + scale * Math.log(p / (1 - p)); };
    return { state: "expected", early: at(0.1), day: at(0.5), late: at(0.9) };
  };
  if (readings.length === 0) return quantiles(place.day, sd, -Infinity);

  const soil = place.normal.map(t => sign * t), level = sign * place.level;
  const summit = place.day + daysTo(place.day, soil.indexOf(Math.max(...soil)) + 1);
  const origin = place.day - daysTo(place.origin, place.day);
  const all = readings.map(r => {
    return { at: summit - yearDays + daysTo(summit, r.day), soil: sign * r.soil, off: sign * (r.soil - soilAt(place.normal, r.day)) };
  });
  const latest = Math.max(...all.map(r => r.at));
  const today = all.filter(r => Math.floor(r.at) === Math.floor(latest));
  const mean = key => today.reduce((sum, r) => sum + r[key], 0) / today.length;

  const soilSD = 1.2 * place.spread * place.slope, typicalSD = place.error * place.slope;
  const weather = 0.6 * soilSD ** 2, season = 0.4 * soilSD ** 2 + typicalSD ** 2;
  const cov = d => weather * Math.exp(-Math.abs(d) / 5) + season * Math.exp(-Math.abs(d) / 50);
  const solve = b => { // Gaussian elimination; positive definite, so it needs no pivots
    const a = all.map((r, i) => [...all.map((q, j) => cov(r.at - q.at) + (i === j ? 0.25 : 0)), b[i]]);
    a.forEach((row, i) => a.forEach((other, j) => {
      const f = other[i] / row[i];
      if (i !== j) for (let k = i; k < other.length; k++) other[k] -= f * row[k];
    }));
    return a.map((row, i) => row[all.length] / row[i]);
  };
  const dot = (a, b) => a.reduce((sum, v, i) => sum + v * b[i], 0);
  const covs = t => all.map(r => cov(t - r.at));
  const weights = solve(all.map(r => r.off));

  const start = Math.max(latest, origin);
  let normal = -Infinity, last = 0, day = start;
  for (let t = Math.round(origin); t <= summit + 0.5; t++) {
    normal = Math.max(normal, soil[daysTo(1, t)]);
    const gap = normal + dot(weights, covs(t)) - level;
    if (gap < 0) day = Infinity;
    else if (day === Infinity) day = t - gap / (gap - last);
    if (t < Math.floor(start)) day = start;
    last = gap;
  }
  const known = { departure: sign * mean("off"), latest };
  if (day === Infinity) return { ...known, state: "unlikely" };
  day = Math.max(day, start);
  if (mean("soil") >= level && day - latest <= 3.5) return { ...known, state: "reached" };
  const explained = dot(solve(covs(day)), covs(day)) / cov(0);
  return { ...known, ...quantiles(day, sd * Math.sqrt(1 - explained), latest) };
}
