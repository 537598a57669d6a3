// How the weeds of a season come up, as worth.Emergence has it: a Gompertz
// curve over soil degree-days, those of warm spells counted in.
const tableStep = 0.5; // degree-days
const excessStep = 0.0625, excessReach = 3; // K, and standard deviations

// complementaryError is erfc, by the series of erf whose terms are all
// positive (Abramowitz and Stegun, formula 7.1.6): right to 1e-15 for |x| < 3.
function complementaryError(x) {
  let term = 2 * Math.abs(x) / Math.sqrt(Math.PI) * Math.exp(-x * x), erf = 0;
  for (let n = 1; term > 1e-18; n++) {
    erf += term;
    term *= 2 * x * x / (2 * n + 1);
  }
  return x < 0 ? 1 + erf : 1 - erf;
}

// excessTable returns how far soil lies past a base on average by how far its
// mean lies, from -reach to reach K, for swings of sigma K from day to day.
function excessTable(sigma) {
  const n = Math.ceil(excessReach * sigma / excessStep), reach = n * excessStep;
  const values = Float64Array.from({ length: 2 * n + 1 }, (_, i) => {
    const x = i * excessStep - reach;
    if (i === 0) return 0;
    if (i === 2 * n) return x;
    return sigma * Math.exp(-x * x / (2 * sigma * sigma)) / Math.sqrt(2 * Math.PI) + x / 2 * complementaryError(-x / (sigma * Math.SQRT2));
  });
  return { reach, values };
}

function excessAt(table, x) {
  const y = (x + table.reach) / excessStep, i = Math.trunc(y);
  if (y <= -1 || i >= table.values.length - 1) return Math.max(x, 0);
  return table.values[i] + (y - i) * (table.values[i + 1] - table.values[i]);
}

// emergenceThrough returns the curve that passes 25 % and 75 % at the given
// degree-days past a base in °C.
function emergenceThrough(base, swing, quarter, threeQuarters) {
  const low = Math.log(4), high = Math.log(4 / 3);
  const b = Math.log(low / high) / (threeQuarters - quarter), a = low * Math.exp(b * quarter);
  const none = Math.exp(-a);
  const share = d => (Math.exp(-a * Math.exp(-b * d)) - none) / (1 - none);
  const values = [share(0)];
  while (values[values.length - 1] <= 0.99995) values.push(share(values.length * tableStep)); // full
  let few = 0;
  while (values[few + 1] < 1e-5) few++;
  return { base, values, few, past: excessTable(swing) };
}

const summerEmergence = emergenceThrough(12, 2.0, 140, 230);
const winterEmergence = emergenceThrough((70 - 32) / 1.8, 1.6, 35, 150);

// emergenceOf works out a season's emergence from 366 °C that begin at its
// origin. up[i + 1] is the share that has come up by the beginning of day i;
// weeds come up on days [begin, end).
function emergenceOf(soil, cooling) {
  const curve = cooling ? winterEmergence : summerEmergence, sign = cooling ? -1 : 1;
  const up = new Float64Array(yearDays + 2);
  const first = firstWeeds(curve, soil, sign), begin = first.day;
  let twice = first.twice;
  for (let day = begin; day < yearDays; day++) {
    let x = sign / 2 * (soil[day] + soil[day + 1]) - sign * curve.base;
    if (x < curve.past.reach) x = excessAt(curve.past, x);
    twice += 2 * x; // the place in the table
    const k = Math.trunc(twice);
    if (k >= curve.values.length - 1) {
      up[day + 2] = 1;
      return { up, begin, end: day + 1 };
    }
    up[day + 2] = curve.values[k] + (twice - k) * (curve.values[k + 1] - curve.values[k]);
  }
  if (twice >= curve.few) return { up, begin, end: yearDays };
  up[yearDays] = up[yearDays + 1] = 0;
  return { up, begin: yearDays, end: yearDays };
}

// firstWeeds returns a day before which few weeds come up, and twice the
// degree-days until then, several days at a time at the two points of Gauss.
function firstWeeds(curve, soil, sign) {
  const days = 6, away = 1 / (2 * Math.sqrt(3)), base = sign * curve.base;
  let day = 0, twice = 0;
  while (day < yearDays && sign * soil[day + 1] <= base - curve.past.reach) day++;
  while (day <= yearDays - days) {
    const s = soil.subarray(day, day + days + 1);
    const middle = sign / days * ((s[0] + s[6]) / 2 + s[1] + s[2] + s[3] + s[4] + s[5]) - base;
    const apart = away * (s[6] - s[0]);
    const next = twice + days * (excessAt(curve.past, middle - apart) + excessAt(curve.past, middle + apart));
    if (next >= curve.few) break;
    twice = next;
    day += days;
  }
  return { day, twice };
}
