// The annual curve, as package curve has it: from twelve monthly means the
// trigonometric polynomial 1, cos kx, sin kx for k = 1..5 and sin 6x whose
// average over each month is the month's mean.

const monthLengths = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
const curveLength = 365; // days
let termsOfMonths = null; // the inverse of the matrix that takes terms to means

// monthTerms returns the average of every term over every month.
function monthTerms() {
  let begin = 0;
  return monthLengths.map(length => {
    const from = 2 * Math.PI * begin / curveLength, width = 2 * Math.PI * length / curveLength;
    begin += length;
    const cos = k => (Math.sin(k * (from + width)) - Math.sin(k * from)) / (k * width);
    const sin = k => (Math.cos(k * from) - Math.cos(k * (from + width))) / (k * width);
    return [1, ...[1, 2, 3, 4, 5].flatMap(k => [cos(k), sin(k)]), sin(6)];
  });
}

// inverseOf returns the inverse of a well-conditioned matrix by Gauss–Jordan
// elimination with row pivoting.
function inverseOf(matrix) {
  const n = matrix.length;
  const a = matrix.map((row, i) => [...row, ...row.map((_, j) => i === j ? 1 : 0)]);
  for (let col = 0; col < n; col++) {
    let pivot = col;
    for (let row = col; row < n; row++) if (Math.abs(a[row][col]) > Math.abs(a[pivot][col])) pivot = row;
    [a[col], a[pivot]] = [a[pivot], a[col]];
    a[col] = a[col].map(v => v / a[col][col]);
    a.forEach((other, row) => {
      if (row !== col) a[row] = other.map((v, j) => v - other[col] * a[col][j]);
    });
  }
  return a.map(row => row.slice(n));
}

// yearOfMonths returns the 365 temperatures at 0:00 of every day of the typical
// year with twelve monthly means, all in °C, January first.
function yearOfMonths(months) {
  termsOfMonths = termsOfMonths || inverseOf(monthTerms());
  const terms = termsOfMonths.map(row => row.reduce((sum, share, m) => sum + share * months[m], 0));
  return Array.from({ length: curveLength }, (_, day) => {
    const x = 2 * Math.PI * day / curveLength;
    let t = terms[0] + terms[11] * Math.sin(6 * x);
    for (let k = 1; k <= 5; k++) t += terms[2 * k - 1] * Math.cos(k * x) + terms[2 * k] * Math.sin(k * x);
    return t;
  });
}
