// An edition as a page asks it: for a cell, its region, and places by name.

// mostTyped is how many places are loaded at most for what is typed; of short
// beginnings of many names not all are, until more is typed.
const mostTyped = 8000;

// openEdition returns the edition whose index is data/lookup.json, and whose
// folder is at root ("" or "../").
function openEdition(index, root) {
  const regions = async () => {
    const lines = index.regions ? await loadShard(root, index.regions, "weekbandRegions", "") : [];
    return lines.map(([name, id, slug, lat, lon]) => ({ name, id, slug, lat, lon }));
  };
  const placesOf = async shard => {
    const lines = await loadShard(root, placeFile(shard.key), "weekbandPlaces", shard.key);
    return lines.map(([name, lat, lon, code = "", region = "", rank = 0]) => ({ name, lat, lon, code, region, rank }));
  };
  const placesFor = async q => {
    const lists = await Promise.all(placeShardsFor(index.places, q).map(placesOf));
    const seen = new Set();
    return lists.flat().filter(p => { // a place lies in several shards
      const key = JSON.stringify(p);
      return !seen.has(key) && seen.add(key);
    });
  };
  return {
    index,
    // cellAt returns a promise of what is known of a spot { lat, lon }, as
    // readCell does, with year, its 365 temperatures in °C, or null.
    async cellAt(spot) {
      const cell = await readCell(index, root, spot);
      return { ...cell, year: cell.months && yearOfMonths(cell.months) };
    },
    // regionOf returns a promise of a cell's region { name, id, slug, lat, lon },
    // null for none.
    async regionOf(cell) {
      return cell.region > 0 ? (await regions())[cell.region - 1] || null : null;
    },
    // find returns a promise of the spots { name, lat, lon, exact, near, context, note }
    // a reader may mean, best first.
    async find(typed) {
      const [known, areas] = await Promise.all([placesFor(foldName(typed)), regions()]);
      return spotsFor(known, areas, typed);
    },
  };
}

// positionText writes the position of a spot, "38.20° N, 45.10° W".
function positionText(spot) {
  const side = (value, plus, minus) => Math.abs(value).toFixed(2) + "° " + (value < 0 ? minus : plus);
  return side(spot.lat, "N", "S") + ", " + side(spot.lon, "E", "W");
}

// placeShardsFor returns the shards a folded query needs: those whose key
// begins with it or with whose key it begins; without any, those of its first
// letter, and of its second, since two letters may be swapped. At least one,
// then as long as they hold no more than mostTyped places.
function placeShardsFor(shards, q) {
  const letters = [...q];
  const fits = start => shards.filter(s => start !== "" && (s.key.startsWith(start) || start.startsWith(s.key)));
  let wanted = fits(q);
  if (wanted.length === 0) wanted = [...fits(letters[0] || ""), ...fits(letters[1] || "")];
  let sum = 0;
  return wanted.filter((s, i) => wanted.indexOf(s) === i).filter((s, i) => (sum += s.count) <= mostTyped || i === 0);
}

// spotsFor puts places and regions in one list: exactly called ones first,
// places before regions, as the command takes them; near names only where
// nothing else fits.
function spotsFor(known, areas, typed) {
  const places = findPlaces(known, typed), q = foldName(typed);
  const asSpot = (p, exact) => ({ name: p.name, lat: p.lat, lon: p.lon, exact, context: [p.code, p.region].filter(c => c && !p.name.includes(c)).join(", "), note: "" });
  const asPlace = r => ({ ...r, code: r.id, region: "", rank: 0 });
  const asArea = (r, exact) => ({ ...asSpot(r, exact), context: r.name.endsWith(`(${r.id})`) ? "region, " + positionText(r) : "region", note: "The answer is for a point in the middle of the region." });
  const regions = findPlaces(areas.map(asPlace), typed);
  const of = (list, grade) => list.filter(p => gradeOf(p, q) === grade);
  const sure = [...of(places.found, 0).map(p => asSpot(p, true)), ...of(regions.found, 0).map(r => asArea(r, true))];
  const begins = grade => [...of(places.found, grade).map(p => asSpot(p, false)), ...of(regions.found, grade).map(r => asArea(r, false))];
  const good = [...sure, ...begins(1), ...begins(2), ...begins(3)];
  return good.length > 0 ? good : begins(noneOfThese).map(spot => ({ ...spot, near: true }));
}
