// Where a picture of a map shows a position, and which position it shows at a
// place. A sight is what Page.Sight of render tells of a picture; places are
// in its layout pixels, positions in degrees.

// pixelToPosition returns {lon, lat, frame} of a place, frame being the index
// of its map in sight.frames; null outside all maps, on the words of an inset
// and where there is no ground. Insets win over the map they lie on.
function pixelToPosition(sight, x, y) {
  for (let i = 0; i < sight.frames.length; i++) {
    const area = sight.frames[i];
    if (!sightHolds(area.box, x, y)) continue;
    const at = sightAt(area.mesh, x, y);
    return at && { ...sightPosition(at.value), frame: i };
  }
  return null;
}

// positionToPixel returns {x, y, frame} of a position: in the inset whose
// ground holds it, else on the main map; null where it is shown nowhere.
function positionToPixel(sight, lon, lat) {
  for (let i = 0; i < sight.frames.length; i++) {
    const area = sight.frames[i];
    if (area.ground && !sightHolds(area.ground, lon, lat)) continue;
    const p = sightSearch(area.mesh, lon, lat);
    if (!p || !sightHolds(area.box, p.x, p.y)) continue;
    const covered = !area.ground && sight.frames.some(o => o.ground && sightHolds(o.box, p.x, p.y));
    if (!covered) return { ...p, frame: i };
  }
  return null;
}

// sightHolds reports whether a box holds a place, edges included.
function sightHolds(box, x, y) {
  return x >= Math.min(box[0], box[2]) && x <= Math.max(box[0], box[2]) && y >= Math.min(box[1], box[3]) && y <= Math.max(box[1], box[3]);
}

const sightsRead = new WeakMap();

// sightNodes returns the positions of a mesh, each as its two or three
// numbers, row by row; null where there is no ground.
function sightNodes(mesh) {
  let nodes = sightsRead.get(mesh);
  if (nodes) return nodes;
  const numbers = mesh.node.map(differences => {
    const at = new Array(differences.length).fill(0);
    differences.forEach((d, k) => {
      const col = k % mesh.cols;
      const left = col > 0 ? at[k - 1] : 0, up = k >= mesh.cols ? at[k - mesh.cols] : 0;
      const both = col > 0 && k >= mesh.cols ? at[k - mesh.cols - 1] : 0;
      if (d !== null) at[k] = d + left + up - both;
    });
    return at;
  });
  nodes = mesh.node[0].map((d, k) => d === null ? null : numbers.map(at => at[k] * mesh.unit));
  sightsRead.set(mesh, nodes);
  return nodes;
}

// sightCell returns the four nodes around a place of the mesh, and how far
// into the cell it lies; null where a node is missing.
function sightCell(mesh, x, y) {
  const [left, top, right, bottom] = mesh.rect;
  const u = (x - left) / (right - left) * (mesh.cols - 1), v = (y - top) / (bottom - top) * (mesh.rows - 1);
  const col = Math.max(0, Math.min(mesh.cols - 2, Math.floor(u))), row = Math.max(0, Math.min(mesh.rows - 2, Math.floor(v)));
  const nodes = sightNodes(mesh), first = row * mesh.cols + col;
  const corners = [nodes[first], nodes[first + 1], nodes[first + mesh.cols], nodes[first + mesh.cols + 1]];
  return corners.includes(null) ? null : { corners, u: u - col, v: v - row };
}

// sightAt returns the numbers at a place of a mesh and how they change with
// each pixel to the right and down; null outside.
function sightAt(mesh, x, y) {
  const slack = 0.01; // of the rounding of frames
  const [left, top, right, bottom] = mesh.rect;
  if (!(x >= left - slack && x <= right + slack && y >= top - slack && y <= bottom + slack)) return null;
  const cell = sightCell(mesh, x, y);
  return cell && sightBetween(mesh, cell);
}

function sightBetween(mesh, { corners: [a, b, c, d], u, v }) {
  const wide = (mesh.rect[2] - mesh.rect[0]) / (mesh.cols - 1), high = (mesh.rect[3] - mesh.rect[1]) / (mesh.rows - 1);
  return {
    value: a.map((_, i) => (1 - v) * ((1 - u) * a[i] + u * b[i]) + v * ((1 - u) * c[i] + u * d[i])),
    right: a.map((_, i) => ((1 - v) * (b[i] - a[i]) + v * (d[i] - c[i])) / wide),
    down: a.map((_, i) => ((1 - u) * (c[i] - a[i]) + u * (d[i] - b[i])) / high),
  };
}

// sightPosition returns the position of numbers.
function sightPosition(n) {
  const degrees = 180 / Math.PI;
  if (n.length === 3) return { lon: Math.atan2(n[1], n[0]) * degrees, lat: Math.atan2(n[2], Math.hypot(n[0], n[1])) * degrees };
  const lon = n[0] * degrees;
  return { lon: lon - 360 * Math.round(lon / 360), lat: Math.asin(Math.max(-1, Math.min(1, n[1]))) * degrees };
}

// sightAway returns what a position's numbers differ from those of a mesh,
// longitudes the short way round.
function sightAway(lon, lat, n) {
  const radian = Math.PI / 180, sin = Math.sin(lat * radian), cos = Math.cos(lat * radian);
  if (n.length === 3) {
    const long = Math.hypot(...n) || 1; // between nodes numbers lie inside the sphere
    return [cos * Math.cos(lon * radian) * long - n[0], cos * Math.sin(lon * radian) * long - n[1], sin * long - n[2]];
  }
  const turn = lon * radian - n[0];
  return [turn - 2 * Math.PI * Math.round(turn / (2 * Math.PI)), sin - n[1]];
}

// sightSearch returns the place {x, y} of a position on a mesh, by Newton's
// steps from the nearest node; null when it is not on it.
function sightSearch(mesh, lon, lat) {
  const [left, top, right, bottom] = mesh.rect;
  let p = sightNearest(mesh, lon, lat);
  for (let step = 0; p && step < 25; step++) {
    const cell = sightCell(mesh, p.x, p.y);
    if (!cell) return null;
    const at = sightBetween(mesh, cell), d = sightStep(at, sightAway(lon, lat, at.value));
    if (!d) return null;
    if (Math.hypot(d.x, d.y) < 0.002) return sightHolds([left - 0.05, top - 0.05, right + 0.05, bottom + 0.05], p.x, p.y) ? p : null;
    const far = Math.max(1, Math.hypot(d.x, d.y) / 400);
    p = { x: p.x + d.x / far, y: p.y + d.y / far };
    if (!sightHolds([left - 300, top - 300, right + 300, bottom + 300], p.x, p.y)) return null;
  }
  return null;
}

// sightStep returns the step in pixels that makes up for a difference best.
function sightStep(at, away) {
  const dot = (a, b) => a.reduce((sum, v, i) => sum + v * b[i], 0);
  const a = dot(at.right, at.right), b = dot(at.right, at.down), c = dot(at.down, at.down);
  const e = dot(at.right, away), f = dot(at.down, away), det = a * c - b * b;
  if (!(det > 1e-12 * a * c)) return null;
  return { x: (c * e - b * f) / det, y: (a * f - b * e) / det };
}

// sightNearest returns the place of the node nearest to a position, and no
// node where cells are missing.
function sightNearest(mesh, lon, lat) {
  const [left, top, right, bottom] = mesh.rect;
  let best = null, least = Infinity;
  sightNodes(mesh).forEach((n, k) => {
    if (!n) return;
    const away = Math.hypot(...sightAway(lon, lat, n));
    const col = k % mesh.cols, row = Math.floor(k / mesh.cols);
    // a hair towards the middle, so that it lies in a cell that is there
    const p = { x: left + (right - left) * col / (mesh.cols - 1), y: top + (bottom - top) * row / (mesh.rows - 1) };
    p.x += ((left + right) / 2 - p.x) * 1e-6;
    p.y += ((top + bottom) / 2 - p.y) * 1e-6;
    if (away < least && sightCell(mesh, p.x, p.y)) {
      least = away;
      best = p;
    }
  });
  return best;
}
