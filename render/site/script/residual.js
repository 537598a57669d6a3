// How an application's strength is lost, as worth.Treatment has it. A
// treatment is {halfLife: days, q10, reference: °C}.
const frozenSoil = 0, warmestSoil = 45; // °C, past which decay changes no more
const decayStep = 0.25, decayLowest = frozenSoil - decayStep; // K and °C
const decayEntries = Math.floor((warmestSoil - decayLowest) / decayStep) + 1;

// halfLifeAt returns the half-life in days in soil of a temperature in °C.
function halfLifeAt(treatment, soil) {
  const { halfLife, q10, reference } = treatment;
  if (q10 <= 0 || q10 === 1) return halfLife;
  const warmth = Math.min(Math.max(soil, frozenSoil), warmestSoil);
  return halfLife * Math.pow(q10, ((reference === 0 ? 20 : reference) - warmth) / 10);
}

// decayTable returns half of the share of strength that is left after half a
// day, by the soil's temperature.
function decayTable(treatment) {
  return Float64Array.from({ length: decayEntries }, (_, i) => 0.5 * Math.pow(2, -0.5 / halfLifeAt(treatment, decayLowest + i * decayStep)));
}

function decayAt(table, soil) {
  const x = (soil - decayLowest) / decayStep, i = Math.floor(x);
  if (x < 0) return table[0];
  if (i >= decayEntries - 1) return table[decayEntries - 1];
  return table[i] + (x - i) * (table[i + 1] - table[i]);
}

// residualLasts returns the days until an application at a moment has a share
// of its strength left, in a year of soil in °C, or null when that takes more
// than limit days.
function residualLasts(treatment, year, applied, share, limit) {
  const from = wrapDay(applied) - 1, want = -Math.log2(share);
  let lives = 0;
  for (let start = from; start < from + limit;) {
    const to = Math.min(Math.floor(start) + 1, from + limit), day = Math.floor(start);
    const a = year[day % yearDays], b = year[(day + 1) % yearDays];
    const today = (to - start) / halfLifeAt(treatment, a + ((start + to) / 2 - day) * (b - a));
    if (lives + today >= want) return start - from + (to - start) * Math.min((want - lives) / today, 1);
    lives += today;
    start = to;
  }
  return null;
}
