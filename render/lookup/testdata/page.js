// Asks an edition as a page would: reads { root, spots, queries, list } and
// writes what the scripts of the page, which stand before this, say of each.
const fs = require("fs"), vm = require("vm");
globalThis.document = {
  createElement: () => ({ remove() {} }),
  head: {
    append(script) {
      try {
        vm.runInThisContext(fs.readFileSync(script.src, "utf8"));
      } catch (problem) {
        return setImmediate(script.onerror);
      }
      setImmediate(script.onload);
    },
  },
};
(async () => {
  const asked = JSON.parse(fs.readFileSync(0, "utf8")), answer = { cells: [], found: [], typed: [], problem: "" };
  if (asked.list) answer.found = asked.queries.map(q => findPlaces(asked.list, q));
  if (asked.root) {
    const edition = openEdition(JSON.parse(fs.readFileSync(asked.root + "data/lookup.json", "utf8")), asked.root);
    try {
      for (const spot of asked.spots || []) {
        const cell = await edition.cellAt(spot);
        answer.cells.push({ ...cell, area: await edition.regionOf(cell) });
      }
      if (!asked.list) for (const q of asked.queries || []) answer.typed.push(await edition.find(q));
    } catch (problem) {
      answer.problem = problem.message;
    }
  }
  process.stdout.write(JSON.stringify(answer));
})();
