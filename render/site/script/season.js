// The typical year, as package season has it: 365 days, a moment counted in
// days from 1.0 = 1 January 0:00. Moments outside [1, 366) are of a
// neighbouring year.
const yearDays = 365;
const lastWeek = 52; // weeks have 7 days from 1 January on, the last one 8
const daysBefore = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365]; // a month, January first

// daysTo returns how many days a moment comes after another, in [0, 365).
function daysTo(from, to) {
  let gap = (to - from) % yearDays;
  if (gap < 0) gap += yearDays;
  return gap >= yearDays ? 0 : gap; // a negative hair rounds up to the whole year
}

// wrapDay returns the same moment within [1, 366).
function wrapDay(day) {
  return 1 + daysTo(1, day);
}

// monthDay returns the date of a moment: month 1 to 12 and day of the month.
function monthDay(day) {
  const n = Math.floor(wrapDay(day));
  let month = 1;
  while (n > daysBefore[month]) month++;
  return { month, day: n - daysBefore[month - 1] };
}

// isoDay writes the date of a moment as month and day, "03-12".
function isoDay(day) {
  const date = monthDay(day);
  return [date.month, date.day].map(n => String(n).padStart(2, "0")).join("-");
}

// dayOf returns 0:00 on a date of any year: 29 February counts as the day
// before.
function dayOf(month, day) {
  return daysBefore[month - 1] + (month === 2 && day === 29 ? 28 : day);
}

// isDate reports whether a text is a day of the calendar, "2027-03-25".
function isDate(text) {
  const at = /^\d{4}-\d\d-\d\d$/.test(text) ? new Date(text + "T00:00:00Z") : new Date(NaN);
  return !Number.isNaN(at.getTime()) && at.toISOString().startsWith(text);
}

// dayOfDate returns 0:00 on a date such as "2027-03-25", and throws a
// RangeError when there is no such date.
function dayOfDate(text) {
  if (!isDate(text)) throw new RangeError(`"${text}" is no date; want one such as 2027-03-25`);
  return dayOf(Number(text.slice(5, 7)), Number(text.slice(8)));
}

// todayOfYear returns 0:00 of today's date where the reader is.
function todayOfYear(now = new Date()) {
  return dayOf(now.getMonth() + 1, now.getDate());
}

// isoToday returns today's date where the reader is, "2027-03-25".
function isoToday(now = new Date()) {
  return String(now.getFullYear()).padStart(4, "0") + "-" + [now.getMonth() + 1, now.getDate()].map(n => String(n).padStart(2, "0")).join("-");
}

// weekOfDay returns the week, 1 to 52, a moment falls in; one on a border is
// in the later week.
function weekOfDay(day) {
  return Math.min(Math.floor((wrapDay(day) - 1) / 7) + 1, lastWeek);
}

// weekSpan returns the first moment of a week and the first after it.
function weekSpan(week) {
  const from = 7 * (week - 1) + 1;
  return { from, to: week === lastWeek ? yearDays + 1 : from + 7 };
}
