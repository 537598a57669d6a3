// The lookup: from a name, a tap or a position to an answer.

// offerLookup makes the search and the maps of the page answer.
function offerLookup() {
  const form = document.getElementById("find"), panel = document.getElementById("answer");
  const text = document.getElementById("index");
  if (!form || !panel || !text) return;
  const edition = openEdition(JSON.parse(text.textContent), settings.root);
  const said = document.getElementById("said");
  // say tells what happens; lost takes an answer to something else away.
  const say = (what, lost = false) => {
    said.textContent = what;
    if (lost) panel.hidden = true;
  };
  const show = answerPanel(panel, edition);
  let asked = 0, marked = null;

  // answer looks a spot up and shows it; the last one asked for stands.
  const answer = async spot => {
    const mine = ++asked;
    say("Looking it up …");
    try {
      const cell = await edition.cellAt(spot);
      const region = await edition.regionOf(cell);
      if (mine !== asked) return;
      say("");
      show(spot, cell, region);
      history.replaceState(null, "", `#at=${spot.lat.toFixed(4)},${spot.lon.toFixed(4)}${spot.name ? "," + encodeURIComponent(spot.name) : ""}`);
      panel.focus({ preventScroll: true });
      const { top } = panel.getBoundingClientRect();
      if (top < 0 || top > innerHeight / 2) panel.scrollIntoView({ block: "start" });
      marked = spot;
      await pin(spot);
    } catch (problem) {
      if (mine === asked) say(problem.message);
    }
  };

  form.hidden = false;
  searchBox(form, typed => {
    const at = typedPosition(typed);
    return at ? [{ ...at, name: "", exact: true }] : edition.find(typed);
  }, answer, say);
  document.getElementById("here").addEventListener("click", async () => {
    say("Asking your device …");
    try {
      await answer(await deviceSpot());
    } catch (problem) {
      say(problem.message);
    }
  });
  onMapClick(answer, say);
  for (const image of mapPictures()) image.addEventListener("load", () => { if (marked) pin(marked); });

  const asks = () => {
    const hash = /^#at=([-\d.]+),([-\d.]+)(?:,(.*))?$/.exec(location.hash);
    if (!hash) return;
    const at = typedPosition(hash[1] + "," + hash[2]);
    if (at) answer({ ...at, name: nameIn(hash[3] || "") });
    else say("This link holds no position: latitude −90 to 90, then longitude −180 to 180.");
  };
  addEventListener("hashchange", asks);
  asks();
}

// nameIn reads the name in a link, "" when it is spoilt.
function nameIn(text) {
  try {
    return decodeURIComponent(text);
  } catch {
    return "";
  }
}
