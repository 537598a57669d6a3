// The search box: names and codes as they are typed, by keyboard or pointer.
const mostChoices = 12, mostEchoed = 40;

// searchBox is the combobox of the page: find returns a promise of spots for
// a text, pick is called with the one chosen, and say with what to tell. The
// roles and keys are those of the ARIA Authoring Practices for an editable
// combobox with a list.
function searchBox(form, find, pick, say) {
  const input = form.querySelector("#place"), list = form.querySelector("#choices");
  let spots = [], active = -1, asked = 0;

  const close = () => {
    list.hidden = true;
    active = -1;
    input.setAttribute("aria-expanded", "false");
    input.removeAttribute("aria-activedescendant");
  };
  const mark = n => {
    active = n;
    [...list.children].forEach((e, i) => e.setAttribute("aria-selected", String(i === n)));
    if (n < 0) return input.removeAttribute("aria-activedescendant");
    input.setAttribute("aria-activedescendant", list.children[n].id);
    list.children[n].scrollIntoView({ block: "nearest" });
  };
  const choose = spot => {
    asked++;
    input.value = spot.name;
    close();
    pick(spot);
  };
  const show = found => {
    spots = found;
    list.replaceChildren(...found.map((spot, i) => {
      const line = element("li", { role: "option", id: "choice-" + i, "aria-selected": "false" }, spot.name || positionText(spot));
      if (spot.context) line.append(element("span", { class: "quiet" }, " " + spot.context));
      line.addEventListener("pointerdown", event => event.preventDefault());
      line.addEventListener("click", () => choose(spot));
      return line;
    }));
    list.hidden = found.length === 0;
    input.setAttribute("aria-expanded", String(found.length > 0));
    mark(-1);
  };
  // ask looks for what is typed and drops the answer when more was typed since.
  const ask = async () => {
    const mine = ++asked, typed = input.value.trim();
    if (typed === "") {
      say("");
      close();
      return null;
    }
    try {
      const found = await find(typed);
      return mine === asked ? found : null;
    } catch (problem) {
      say(problem.message);
      return null;
    }
  };

  // offer shows what was found and says what to do with it.
  const offer = found => {
    show(found.slice(0, mostChoices));
    const typed = input.value.trim(), echo = typed.length > mostEchoed ? typed.slice(0, mostEchoed) + "…" : typed;
    if (found.length === 0) say(`Nothing is called “${echo}”. A nearby town, a code, or a position such as 38.2, -45.1 works too.`, true);
    else if (found[0].near) say(`Nothing is called “${echo}”. Did you mean one of these?`);
    else say(found.length > mostChoices ? `${found.length - mostChoices} more begin like that: type some more letters.` : "");
  };

  input.addEventListener("input", async () => {
    const found = await ask();
    if (found) offer(found);
  });
  input.addEventListener("keydown", event => {
    const step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (step && !list.hidden) {
      mark(Math.max(-1, Math.min(spots.length - 1, active + step)));
      event.preventDefault();
    } else if (event.key === "Escape" && !list.hidden) {
      close();
      event.preventDefault();
    }
  });
  input.addEventListener("blur", close);
  form.addEventListener("submit", async event => {
    event.preventDefault();
    if (active >= 0) return choose(spots[active]);
    if (input.value.trim() === "") return say("Type a town, a postal code or a region.");
    const found = await ask();
    if (!found) return;
    const sure = found.length === 1 ? !found[0].near : found.length > 1 && found[0].exact && !found[1].exact;
    if (sure) return choose(found[0]);
    offer(found);
  });
}
