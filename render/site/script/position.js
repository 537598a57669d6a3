// Positions: from the map, from the device, as typed, and marked on the map.

// typedPosition reads "LAT, LON" in degrees, null for anything else.
function typedPosition(text) {
  const parts = text.split(",").map(s => s.trim());
  if (parts.length !== 2 || parts.some(s => !/^[-+−]?\d+(\.\d+)?$/.test(s))) return null;
  const [lat, lon] = parts.map(s => Number(s.replace("−", "-")));
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
        else say("That is beside the map.");
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
