// Positions: from the map, from the device, as typed, and marked on the map.

// typedPosition reads a latitude and a longitude in degrees, "38.2, -45.1" or
// "38.2° N 45.1° W"; null for anything else.
function typedPosition(text) {
  const read = /^\s*([-+−]?\d+(?:\.\d+)?)\s*°?\s*([NS])?\s*[,;\s]\s*([-+−]?\d+(?:\.\d+)?)\s*°?\s*([EW])?\s*$/i.exec(text);
  if (!read) return null;
  const degrees = (number, side, back) => Number(number.replace("−", "-")) * (side && side.toUpperCase() === back ? -1 : 1);
  const lat = degrees(read[1], read[2], "S"), lon = degrees(read[3], read[4], "W");
  return Math.abs(lat) <= 90 && Math.abs(lon) <= 180 ? { lat, lon } : null;
}

// deviceSpot asks the device where it is. Nothing is asked before the reader
// wants it, and the position goes nowhere.
function deviceSpot() {
  return new Promise((resolve, reject) => {
    if (!navigator.geolocation) return reject(new Error("This browser tells no position. Type a town or tap the map."));
    navigator.geolocation.getCurrentPosition(
      at => resolve({ lat: at.coords.latitude, lon: at.coords.longitude }),
      () => reject(new Error("Your device did not tell its position. Type a town or tap the map.")),
      { timeout: 15000, maximumAge: 600000 },
    );
  });
}

// loadSights returns a promise of what the maps of the pages show where.
const loadSights = () => loadShard(settings.root, "data/lookup/sights.js", "weekbandSights", "");

// mapPictures are the pictures of the maps on the page.
function mapPictures() {
  return [...document.querySelectorAll(".panel .map img")];
}

// sightOf returns the sight of the file that a picture shows now.
function sightOf(image, { sights, windows }) {
  const { narrow, wide } = windows[image.closest(".panel").id];
  return sights[image.currentSrc.includes("-narrow") ? narrow : wide];
}

// onMapClick calls pick with the position of a click on any map.
function onMapClick(pick, say) {
  for (const image of mapPictures()) {
    image.addEventListener("click", async event => {
      const box = image.getBoundingClientRect();
      const x = (event.clientX - box.left) / box.width, y = (event.clientY - box.top) / box.height;
      try {
        const sight = sightOf(image, await loadSights());
        const at = pixelToPosition(sight, x * sight.width, y * sight.height);
        if (at) pick({ lat: at.lat, lon: at.lon });
      } catch (problem) {
        say(problem.message);
      }
    });
    image.closest(".map").classList.add("live");
  }
}

// pin marks a position on all maps, as a share of their size, so that it holds
// when they change it.
async function pin(at) {
  const sights = await loadSights();
  for (const image of mapPictures()) {
    const sight = sightOf(image, sights), frame = image.closest(".map");
    const spot = positionToPixel(sight, at.lon, at.lat);
    let mark = frame.querySelector(".pin");
    if (!spot) {
      mark?.remove();
      continue;
    }
    if (!mark) frame.append(mark = element("span", { class: "pin", "aria-hidden": "true" }));
    mark.style.left = 100 * spot.x / sight.width + "%";
    mark.style.top = 100 * spot.y / sight.height + "%";
  }
}
