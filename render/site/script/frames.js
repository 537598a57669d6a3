// The page of pieces to copy.

// offerCopies completes the addresses in the pieces of HTML and puts a button
// for copying beside each.
function offerCopies() {
  const codes = document.querySelectorAll(".code code");
  if (codes.length === 0) return;
  const here = new URL(settings.root || "./", location.href.split(/[?#]/)[0]).href;
  for (const code of codes) {
    code.textContent = code.textContent.replace(/(src|href)="(?!https?:)([^"]*)"/g, (_, name, file) => `${name}="${here}${file}"`);
    code.parentElement.after(copyButton(code));
  }
  offerCards();
}

function copyButton(code) {
  const said = element("span", { role: "status" });
  const button = element("button", { type: "button" }, "Copy");
  button.addEventListener("click", async () => {
    try {
      await navigator.clipboard.writeText(code.textContent);
      said.textContent = " Copied.";
    } catch {
      getSelection().selectAllChildren(code);
      said.textContent = " Marked: copy it with your browser.";
    }
  });
  return element("p", { class: "copy" }, button, said);
}

// offerCards writes the region chosen into the piece for a card.
function offerCards() {
  const which = document.getElementById("which"), code = document.querySelector("#card code");
  if (!which || !code) return;
  which.closest(".filter").hidden = false;
  const write = () => {
    const name = which.selectedOptions[0].textContent.replaceAll("&", "&amp;").replaceAll('"', "&quot;");
    code.textContent = code.textContent
      .replace(/cards\/[^"]*\.html/, () => `cards/${which.value}.html`)
      .replace(/title="[^"]*"/, () => `title="${name}"`);
  };
  which.addEventListener("change", write);
  const asked = new URLSearchParams(location.search).get("region");
  if ([...which.options].some(o => o.value === asked)) which.value = asked;
  write();
}
