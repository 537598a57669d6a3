// What package lookup of weekband writes, read by a page: the shards of
// data/lookup and what a block of cells tells. See render/lookup/block.go for
// how a block is laid out.

const reasonWords = ["nodata", "dated", "flat", "never", "always"]; // as crossing.Reason writes them
const handedOver = new Map(); // by call and key, what a shard's one call gave
const shardsAsked = new Map(); // by address, the promise of a shard

for (const call of ["weekbandShard", "weekbandPlaces", "weekbandRegions", "weekbandSights"]) {
  globalThis[call] = (...values) => handedOver.set(call + " " + values.slice(0, -1).join(), values[values.length - 1]);
}

// loadShard returns a promise of what the script at root + file hands over in
// a call with a key ("" for none). A shard is loaded once; after a failure it
// is tried again when next asked for.
function loadShard(root, file, call, key) {
  const address = root + file;
  if (!shardsAsked.has(address)) {
    const asked = new Promise((give, fail) => {
      const script = document.createElement("script");
      const off = why => {
        shardsAsked.delete(address);
        script.remove();
        fail(new Error(why));
      };
      script.onload = () => {
        if (!handedOver.has(call + " " + key)) return off(`${file} is not what it should be; reload the page, and if that does not help, the edition is damaged.`);
        script.remove();
        give(handedOver.get(call + " " + key));
      };
      script.onerror = () => off(`${file} could not be read; check the connection and try again.`);
      script.src = address;
      document.head.append(script);
    });
    shardsAsked.set(address, asked);
  }
  return shardsAsked.get(address);
}

// inflateShard returns a promise of the bytes in base64 of a raw deflate stream.
async function inflateShard(text) {
  const packed = Uint8Array.from(atob(text), c => c.charCodeAt(0));
  const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream("deflate-raw"));
  return new Uint8Array(await new Response(stream).arrayBuffer());
}

// cellOf returns the row and column of the cell that holds a position, null off
// the grid.
function cellOf(grid, spot) {
  const { west, south, east, north, rows, cols } = grid;
  if (!(spot.lat >= south && spot.lat <= north && spot.lon >= west && spot.lon <= east)) return null;
  return {
    row: Math.min(Math.trunc((north - spot.lat) / ((north - south) / rows)), rows - 1),
    col: Math.min(Math.trunc((spot.lon - west) / ((east - west) / cols)), cols - 1),
  };
}

// blockOf returns the block that holds a cell, with the cell's number in it;
// null where the index has no shard.
function blockOf(index, cell) {
  const row = Math.floor(cell.row / index.side), col = Math.floor(cell.col / index.side);
  if ((index.shards[row] || "")[col] !== "1") return null;
  const rows = Math.min(index.side, index.grid.rows - row * index.side);
  const cols = Math.min(index.side, index.grid.cols - col * index.side);
  return { key: row + "-" + col, rows, cols, cell: (cell.row - row * index.side) * cols + cell.col - col * index.side };
}

// takeBytes returns the next n bytes of a reader { bytes, at }.
function takeBytes(reader, n) {
  if (reader.at + n > reader.bytes.length) throw new Error("A part of the map's data ends early; build the edition again.");
  reader.at += n;
  return reader.bytes.subarray(reader.at - n, reader.at);
}

// likelyBefore returns which of the values known before cell i most likely
// comes again.
function likelyBefore(v, cols, i) {
  const left = i % cols > 0 ? v[i - 1] : 0, above = i >= cols ? v[i - cols] : 0;
  const corner = i % cols > 0 && i >= cols ? v[i - cols - 1] : 0;
  return left === corner ? above : left;
}

// takePlane returns the numbers of a plane of 1 or 2 bytes a number.
function takePlane(reader, rows, cols, width, has) {
  let n = 0;
  for (const ok of has) n += ok ? 1 : 0;
  const data = takeBytes(reader, n * width), v = new Int32Array(rows * cols);
  for (let i = 0, at = 0; i < v.length; i++) {
    if (i > 0) v[i] = i < cols ? v[i - 1] : i % cols === 0 ? v[i - cols] : (v[i - 1] + v[i - cols]) >> 1;
    if (!has[i]) continue;
    const z = data[at] | (width === 2 ? data[n + at] << 8 : 0);
    at++;
    v[i] += (z >> 1) ^ -(z & 1);
    if (width === 1) v[i] &= 0xff;
  }
  return v;
}

// takeWindow returns what a window's part of a block tells of a cell. Days are
// unwrapped at the window's cut.
function takeWindow(reader, block, index, cut) {
  const { rows, cols, cell } = block;
  const marks = Uint8Array.from(takeBytes(reader, rows * cols));
  for (let i = 0; i < marks.length; i++) marks[i] ^= likelyBefore(marks, cols, i);
  const has = marks.map(mark => (mark & 0x7f) === 1 ? 1 : 0);
  const days = takePlane(reader, rows, cols, 2, has);
  const [lead, tail, spread, error] = ["lead", "tail", "spread", "error"].map(name => index.scales[name][takePlane(reader, rows, cols, 1, has)[cell]]);
  const told = { reason: reasonWords[marks[cell] & 0x7f], beyond: (marks[cell] & 0x80) !== 0, day: 0, from: 0, to: 0, spread: 0, error: 0 };
  if (!has[cell]) return told;
  const ofYear = (days[cell] + 0.5) / index.per_day, day = ofYear < cut ? ofYear + 365 : ofYear;
  return { ...told, day, from: day - lead, to: day + tail, spread, error };
}

// takeRegion returns the region of a cell: 1 + its place in the list, 0 for
// none.
function takeRegion(reader, block) {
  const how = takeBytes(reader, block.rows * block.cols);
  const times = [0, 0, 0];
  for (const h of how) times[h]++;
  const added = takeBytes(reader, 4 * times[1]), again = takeBytes(reader, 2 * times[2]);
  const regions = new Uint32Array(how.length), palette = [0];
  let a = 0, k = 0;
  for (let i = 0; i < how.length; i++) {
    if (how[i] === 0) {
      regions[i] = likelyBefore(regions, block.cols, i);
    } else if (how[i] === 1) {
      regions[i] = added[a] + added[a + 1] * 256 + added[a + 2] * 65536 + added[a + 3] * 16777216;
      palette.push(regions[i]);
      a += 4;
    } else {
      regions[i] = palette[again[k] + again[k + 1] * 256];
      k += 2;
    }
  }
  return regions[block.cell];
}

// takeMonths returns the twelve monthly means in °C of a cell's typical year,
// null where it has none.
function takeMonths(reader, block, years) {
  const across = n => Math.ceil(n / years.stride);
  const rows = across(block.rows), cols = across(block.cols);
  const at = Math.floor(Math.floor(block.cell / block.cols) / years.stride) * cols + Math.floor(block.cell % block.cols / years.stride);
  const has = takeBytes(reader, rows * cols), months = [];
  for (let m = 0, sum = 0; m < 12; m++) {
    sum += takePlane(reader, rows, cols, 2, has)[at];
    months.push(sum / years.per_degree);
  }
  return has[at] === 1 ? months : null;
}

// cellFromBlock returns all that the bytes of a block tell of one cell.
function cellFromBlock(index, block, bytes) {
  const reader = { bytes, at: 0 };
  const windows = index.windows.map(w => takeWindow(reader, block, index, w.cut));
  const region = takeRegion(reader, block);
  return { windows, region, months: index.years.stride > 0 ? takeMonths(reader, block, index.years) : null };
}

// cellAway is the answer off the map.
function cellAway(index) {
  const none = { reason: reasonWords[0], beyond: false, day: 0, from: 0, to: 0, spread: 0, error: 0 };
  return { windows: index.windows.map(() => ({ ...none })), region: 0, months: null };
}

// readCell returns a promise of what an edition at root knows of a position
// { lat, lon }: { windows: [{ reason, beyond, day, from, to, spread, error }],
// region, months }. Days are unwrapped; without a day they are 0.
async function readCell(index, root, spot) {
  const cell = cellOf(index.grid, spot), block = cell && blockOf(index, cell);
  if (!block) return cellAway(index);
  const text = await loadShard(root, `data/lookup/${block.key}.js`, "weekbandShard", block.key);
  return cellFromBlock(index, block, await inflateShard(text));
}
