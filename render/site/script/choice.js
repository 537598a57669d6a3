// What the reader prefers: the unit of temperatures and the order of dates. It
// stays on the reader's own device.
const settings = JSON.parse(document.getElementById("page").textContent);
const choice = { ...settings.choice };
const storeKey = "weekband.choice";

// kept returns what the device remembers under a key; some keep nothing.
function kept(key) {
  try {
    return JSON.parse(localStorage.getItem(key));
  } catch {
    return null;
  }
}

// keep makes the device remember a value, where it may.
function keep(key, value) {
  try {
    localStorage.setItem(key, JSON.stringify(value));
  } catch {
    // nothing is remembered then
  }
}

// element makes an element with attributes and children, texts or elements.
function element(name, attributes = {}, ...children) {
  const e = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) e.setAttribute(key, value);
  e.append(...children);
  return e;
}

// rewrite writes every date under an element as the reader prefers.
function rewrite(under) {
  for (const e of under.querySelectorAll("[data-from]")) e.textContent = spanText(Number(e.dataset.from), Number(e.dataset.to), choice.order, "full" in e.dataset);
  for (const e of under.querySelectorAll("[data-day]")) e.textContent = dateText(Number(e.dataset.day), choice.order, "full" in e.dataset);
  for (const e of under.querySelectorAll("[data-celsius]")) e.textContent = temperatureText(Number(e.dataset.celsius));
  for (const e of under.querySelectorAll("[data-kelvin]")) e.textContent = differenceText(Number(e.dataset.kelvin));
}

// prefer makes a choice hold and tells the charts.
function prefer(changes) {
  Object.assign(choice, changes);
  Object.assign(document.documentElement.dataset, { unit: choice.unit, order: choice.order });
  rewrite(document.body);
  document.dispatchEvent(new CustomEvent("weekband:choice", { detail: { ...choice } }));
}

// options is one choice as a group of radio buttons.
function options(key, legend, values) {
  const group = element("fieldset", {}, element("legend", {}, legend));
  for (const [value, text] of values) {
    const button = element("input", { type: "radio", name: "choice-" + key, value });
    button.checked = choice[key] === value;
    button.addEventListener("change", () => {
      prefer({ [key]: value });
      keep(storeKey, choice);
    });
    group.append(element("label", {}, button, " " + text));
  }
  return group;
}

// offerChoices takes up what was chosen before and shows the choices.
function offerChoices() {
  const before = kept(storeKey);
  if (before && (before.unit !== choice.unit || before.order !== choice.order)) prefer(before);
  const box = document.querySelector(".choices");
  if (!box) return;
  box.append(
    options("unit", "Temperatures in", [["F", "°F"], ["C", "°C"]]),
    options("order", "Dates as", ["month-first", "day-first"].map(order => [order, dateText(71, order)])),
  );
  box.hidden = false;
}
