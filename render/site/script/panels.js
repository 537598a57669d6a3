// One map at a time: tabs for the windows, so that only the map looked at is
// loaded. Without scripts the maps stand one under the other.

// offerPanels puts tabs above the maps. Roles and keys are those of the ARIA
// Authoring Practices for tabs.
function offerPanels() {
  const maps = document.getElementById("maps"), panels = [...document.querySelectorAll(".panel")];
  if (!maps) return;
  maps.dataset.live = "";
  if (panels.length < 2) return;
  const tabs = panels.map((panel, i) => {
    const tab = element("button", { type: "button", role: "tab", id: panel.id + "-tab", "aria-controls": panel.id }, panel.querySelector("h2").textContent);
    tab.addEventListener("click", () => show(i));
    panel.setAttribute("role", "tabpanel");
    return tab;
  });
  const show = chosen => panels.forEach((panel, i) => {
    panel.hidden = i !== chosen;
    tabs[i].setAttribute("aria-selected", String(i === chosen));
    tabs[i].tabIndex = i === chosen ? 0 : -1;
  });
  const list = element("div", { class: "tabs", role: "tablist", "aria-label": "Maps" }, ...tabs);
  list.addEventListener("keydown", event => {
    const step = { ArrowRight: 1, ArrowLeft: -1 }[event.key];
    if (!step) return;
    const next = (tabs.indexOf(document.activeElement) + step + tabs.length) % tabs.length;
    show(next);
    tabs[next].focus();
    event.preventDefault();
  });
  maps.prepend(list);
  show(Math.max(0, panels.findIndex(panel => "#" + panel.id === location.hash)));
}
