// Answers questions about sights: reads [{sight, places: [[x, y]], positions:
// [[lon, lat]]}] and writes what sight.js, put before this, says of each.
const cases = JSON.parse(require('fs').readFileSync(0, 'utf8'));
console.log(JSON.stringify(cases.map(c => ({
  positions: c.places.map(p => pixelToPosition(c.sight, p[0], p[1])),
  places: c.positions.map(p => positionToPixel(c.sight, p[0], p[1])),
}))));
