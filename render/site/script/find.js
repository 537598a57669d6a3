// The search of places, as package places has it: the same places in the same
// order. A place is { name, lat, lon, code, region, rank }.

// foldName returns the form in which names are compared: small letters without
// accents, with one space between words and no other punctuation.
function foldName(text) {
  const small = [...text].map(c => c.toLowerCase()).join("").normalize("NFKD");
  return small.replace(/[\p{Mn}'’]/gu, "").replace(/[^\p{L}\p{Nd}]+/gu, " ").trim();
}

// compareText compares by Unicode numbers, as Go does.
function compareText(a, b) {
  const x = [...a], y = [...b];
  for (let i = 0; i < x.length && i < y.length; i++) {
    if (x[i] !== y[i]) return x[i].codePointAt(0) - y[i].codePointAt(0);
  }
  return x.length - y.length;
}

// comparePlaces orders places: ranked ones first, by rank; then by folded name
// and all else.
function comparePlaces(a, b) {
  return (a.rank || Infinity) === (b.rank || Infinity)
    ? compareText(foldName(a.name), foldName(b.name)) || compareText(a.name, b.name) ||
      compareText(a.code, b.code) || compareText(a.region, b.region) || a.lat - b.lat || a.lon - b.lon
    : (a.rank || Infinity) - (b.rank || Infinity);
}

// typingSteps returns how many letters must be put in, taken out, changed or
// swapped with their neighbour to turn a query into a name, and into the
// beginning of it that is nearest. Both stop being exact above limit.
function typingSteps(q, name, limit) {
  if (name.length > q.length + limit) {
    const { whole, begin } = typingSteps(q, name.slice(0, q.length + limit), limit);
    return { whole: Math.max(whole, limit + 1), begin };
  }
  let before = [], last = [0, ...q.map((_, i) => i + 1)], begin = q.length;
  name.forEach((c, j) => {
    const row = [j + 1];
    for (let i = 0; i < q.length; i++) {
      row.push(Math.min(last[i + 1] + 1, row[i] + 1, last[i] + (q[i] === c ? 0 : 1)));
      if (i > 0 && j > 0 && q[i] === name[j - 1] && q[i - 1] === c) row[i + 1] = Math.min(row[i + 1], before[i - 1] + 1);
    }
    before = last;
    last = row;
    begin = Math.min(begin, last[q.length]);
  });
  return { whole: last[q.length], begin };
}

const noneOfThese = 4; // grade of a place whose letters are not those of a query

// gradeOf tells how well a place answers a folded query by its letters: 0 its
// name or code is it, 1 its name begins with it, 2 a later word of it does, 3
// its code does.
function gradeOf(place, q) {
  const name = foldName(place.name), code = foldName(place.code);
  if (name === q || code === q) return 0;
  if (name.startsWith(q)) return 1;
  if (name.includes(" " + q)) return 2;
  return code.startsWith(q) ? 3 : noneOfThese;
}

// nearGrade tells how near a name is to a query: the lower the nearer, more
// than 2 × limit + 1 when it is not.
function nearGrade(place, q, limit) {
  const { whole, begin } = typingSteps(q, [...foldName(place.name)], limit);
  const asWhole = whole <= limit ? 2 * whole : Infinity;
  const asBegin = begin <= limit && q.length > 3 ? 2 * begin + 1 : Infinity;
  return Math.min(asWhole, asBegin);
}

// findPlaces returns { found, exact }: the places of a list that a reader may
// mean by a query, best first, and whether they are called exactly so.
function findPlaces(list, query) {
  const q = foldName(query);
  if (q === "") return { found: [], exact: false };
  let graded = list.map(place => ({ place, grade: gradeOf(place, q) }));
  const best = graded.reduce((least, g) => Math.min(least, g.grade), noneOfThese);
  if (best < noneOfThese) {
    graded = graded.filter(g => g.grade <= (best === 0 ? 0 : 3));
  } else {
    const letters = [...q], limit = Math.max(1, Math.floor(letters.length / 3));
    graded = list.map(place => ({ place, grade: nearGrade(place, letters, limit) })).filter(g => g.grade < Infinity);
  }
  graded.sort((a, b) => a.grade - b.grade || comparePlaces(a.place, b.place));
  return { found: graded.map(g => g.place), exact: best === 0 };
}

// placeFile returns the name of the file of the places with a key.
function placeFile(key) {
  const safe = c => c === " " ? "_" : /[a-z0-9]/.test(c) ? c : `-${c.codePointAt(0).toString(16)}-`;
  return `data/lookup/places-${[...key].map(safe).join("")}.js`;
}
