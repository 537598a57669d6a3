// What an application on a day would still stop of a season's weeds, as
// worth.Season has it. Moments of a season count in days from its origin.
const yearsAgo = yearDays; // how many days before the origin shares reach back to
const latestYear = 1.6448536269514722; // deviates of the later five of ten equally likely years
const lateYears = [0.12566134685507402, 0.38532046640756773, 0.6744897501960817, 1.0364333894937898, latestYear];

// worthSeason works out the season of a place from its year of soil, 365 °C,
// and 0:00 of its coldest day, the warmest when cooling. spread is the standard
// deviation of the crossing in days.
function worthSeason(year, cooling, origin, treatment, spread) {
  const soil = Float64Array.from({ length: yearDays + 1 }, (_, i) => year[(origin - 1 + i) % yearDays]);
  const { up, begin, end } = emergenceOf(soil, cooling);
  const s = { origin, treatment, spread, soil, up, begin, end, total: up[end + 1], shares: new Float64Array(yearsAgo + yearDays + 3) };
  sharesAgo(s, weedsComing(s, decayTable(treatment)));
  return s;
}

// weedsComing fills in the shares of the days on which weeds come up, two days
// at a time from the last on, and returns what has to be carried on.
function weedsComing(s, table) {
  let sum = 0, after = decayAt(table, s.soil[s.end]), today = s.up[s.end + 1] - s.up[s.end];
  const took = (i, half, earlier) => {
    sum = (sum * half + today) * half;
    s.shares[yearsAgo + i] = sum + (1 - half) * (today + earlier) / 12;
  };
  for (let i = s.end - 1; i >= s.begin; i--) {
    const now = decayAt(table, s.soil[Math.max(i - 1, s.begin)]);
    if (i > s.begin) {
      const before = s.up[i + 1] - s.up[i], middle = (now + after) / 2;
      took(i, middle + after, before);
      after = middle;
      today = before;
      i--;
    }
    const before = s.up[i + 1] - s.up[i];
    took(i, now + after, before);
    after = now;
    today = before;
  }
  return { sum, table };
}

// sharesAgo fills in the shares of the days before the first weeds.
function sharesAgo(s, { sum, table }) {
  for (let k = yearsAgo + s.begin - 1; k >= 0; k--) {
    const day = k % yearDays, half = decayAt(table, s.soil[day]) + decayAt(table, s.soil[day + 1]);
    sum *= half * half;
    s.shares[k] = sum;
  }
}

// worthAt returns the share of the season's weeds, 0 to 1, that an application
// would still stop, averaged over ten equally likely years.
function worthAt(s, days) {
  if (s.total <= 0) return 0;
  if (s.spread === 0) return clampShare(normalWorth(s, days));
  const reach = latestYear * s.spread;
  const inside = days - reach >= 2 - yearsAgo && days + reach < yearDays; // no year leaves the shares
  const worth = inside ? t => sharesBetween(s, t) : t => normalWorth(s, t);
  let sum = 0;
  for (const z of lateYears) sum += worth(days - z * s.spread) + worth(days + z * s.spread);
  return clampShare(sum / (2 * lateYears.length));
}

// clampShare keeps a share in [0, 1]; interpolation may be 1e-7 off.
function clampShare(share) {
  return Math.min(Math.max(share, 0), 1);
}

// normalWorth is worthAt in the normal year.
function normalWorth(s, days) {
  if (days >= s.end) return 0;
  if (days + yearsAgo >= 2) return sharesBetween(s, days);
  if (s.shares[yearsAgo] === 0) return 0; // a year earlier all the year's decay comes on top
  return normalWorth(s, days + yearDays) * s.shares[0] / s.shares[yearsAgo];
}

// sharesBetween interpolates the shares by Bessel's formula to second
// differences.
function sharesBetween(s, days) {
  const x = days + yearsAgo, i = Math.floor(x), f = x - i, y = s.shares;
  return (y[i] + f * (y[i + 1] - y[i] + (f - 1) * 0.25 * (y[i - 1] + y[i + 2] - (y[i] + y[i + 1])))) / s.total;
}

// emergedAt returns the share of the weeds that are up in the normal year.
function emergedAt(s, days) {
  if (s.total <= 0 || days <= s.begin) return 0;
  if (days >= s.end) return 1;
  const i = Math.floor(days);
  return (s.up[i + 1] + (days - i) * (s.up[i + 2] - s.up[i + 1])) / s.total;
}

// bestWorth returns the day of greatest worth and its worth.
function bestWorth(s) {
  const best = { days: 0, worth: 0 }, stride = 3;
  if (s.total <= 0) return best;
  for (let t = -yearDays / 2; t < s.end; t += stride) {
    const worth = worthAt(s, t);
    if (worth > best.worth) Object.assign(best, { days: t, worth });
  }
  let lo = best.days - stride, hi = best.days + stride;
  while (hi - lo > 0.02) {
    const a = lo + (hi - lo) / 3, b = hi - (hi - lo) / 3;
    if (worthAt(s, a) >= worthAt(s, b)) hi = b;
    else lo = a;
  }
  const days = (lo + hi) / 2;
  return { days, worth: worthAt(s, days) };
}

// halfUp returns the moment at which half of the weeds are up in the normal
// year, the origin when there are none.
function halfUp(s) {
  if (s.total <= 0) return 0;
  let day = s.begin;
  while (s.up[day + 2] < s.total / 2) day++;
  return day + (s.total / 2 - s.up[day + 1]) / (s.up[day + 2] - s.up[day + 1]);
}

// costsOf returns {day, worth, emerged} at the borders of a calendar, two
// weeks after on time, when half of the weeds are up and on the best day.
function costsOf(s, calendar) {
  const onset = daysTo(s.origin, calendar.ontimeTo), best = bestWorth(s);
  const on = day => {
    const days = onset + (day - calendar.ontimeTo);
    return { day, worth: worthAt(s, days), emerged: emergedAt(s, days) };
  };
  return {
    aheadFrom: on(calendar.aheadFrom), ontimeFrom: on(calendar.ontimeFrom), ontimeTo: on(calendar.ontimeTo),
    twoWeeksLate: on(calendar.ontimeTo + 14), catchupTo: on(calendar.catchupTo),
    halfUp: on(calendar.ontimeTo + (halfUp(s) - onset)), best: on(calendar.ontimeTo + (best.days - onset)),
  };
}

// secondDue returns when a second application is due after a first at applied,
// or null when it is not: with a share below of the first's strength left,
// unless a share until of the weeds is up.
function secondDue(s, applied, below, until) {
  if (s.total <= 0) return null;
  const share = until === 0 ? 0.9 : until;
  const limit = Math.max(leftToCome(s, 1 - share) - applied, 0);
  const lasts = residualLasts(s.treatment, s.soil, applied + 1, below === 0 ? 0.5 : below, limit);
  return lasts === null || emergedAt(s, applied + lasts) >= share ? null : applied + lasts;
}

// leftToCome returns the moment from which less than a share of the weeds of
// the normal year is still to come up.
function leftToCome(s, share) {
  let lo = s.begin, hi = s.end;
  while (hi - lo > 1) {
    const mid = Math.floor((lo + hi) / 2);
    if (s.total - s.up[mid + 1] < share * s.total) hi = mid;
    else lo = mid;
  }
  return hi;
}

// keptBySeeding returns what grass seeded on a day leaves open of on time:
// {closedFrom, lost, open}, a moment and days.
function keptBySeeding(seeding, calendar) {
  const young = seeding.young_days === 0 ? 60 : seeding.young_days;
  const start = calendar.aheadFrom - young, sown = start + daysTo(start, seeding.day);
  const closedFrom = sown - seeding.interval_days, closedTo = sown + young;
  const { ontimeFrom: from, ontimeTo: to } = calendar;
  let open = to - from;
  for (const year of [0, yearDays]) open -= Math.max(Math.min(to, closedTo + year) - Math.max(from, closedFrom + year), 0);
  open = Math.max(open, 0);
  return { closedFrom, open, lost: to - from - open };
}
