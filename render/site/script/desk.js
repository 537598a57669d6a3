// The lookup: from a name, a tap or a position to an answer.

// offerLookup makes the search and the maps of the page answer.
function offerLookup() {
  const form = document.getElementById("find"), panel = document.getElementById("answer");
  const text = document.getElementById("index");
  if (!form || !panel || !text) return;
  const edition = openEdition(JSON.parse(text.textContent), settings.root);
  const said = document.getElementById("said");
  const say = what => { said.textContent = what; };
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
      panel.scrollIntoView({ block: "nearest" });
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
    const at = hash && typedPosition(hash[1] + "," + hash[2]);
    if (at) answer({ ...at, name: hash[3] ? decodeURIComponent(hash[3]) : "" });
  };
  addEventListener("hashchange", asks);
  asks();
}
