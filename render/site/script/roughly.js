// Shares and waits in words, as roughly as they are known.
const roughShares = [
  [0.05, "a twentieth"], [0.1, "a tenth"], [0.2, "a fifth"], [0.25, "a quarter"], [1 / 3, "a third"], [0.4, "two fifths"], [0.5, "half"],
  [0.6, "three fifths"], [2 / 3, "two thirds"], [0.75, "three quarters"], [0.8, "four fifths"], [0.9, "nine tenths"],
];
const hardlyAny = 0.025, nearlyAll = 0.95; // shares below and from which there is no fraction

// roughShare writes a share of something in words: "about a fifth of the
// weeds", "about half the weeds", "nearly all the weeds".
function roughShare(share, whole) {
  if (share < hardlyAny) return "hardly any of " + whole;
  if (share >= nearlyAll) return "nearly all " + whole;
  const nearest = roughShares.reduce((a, b) => Math.abs(b[0] - share) < Math.abs(a[0] - share) ? b : a)[1];
  return "about " + nearest + (nearest === "half" ? " " : " of ") + whole;
}

// roughWait writes a number of days to wait, in whole weeks from two weeks on.
function roughWait(days) {
  if (days >= 14) return "in " + Math.round(days / 7) + " weeks";
  return days === 1 ? "tomorrow" : "in " + days + " days";
}

// roughDays writes a number of days, at least one.
function roughDays(days) {
  const n = Math.max(Math.round(days), 1);
  return n === 1 ? "a day" : n + " days";
}
