// Long tables: showing the rows a reader asks for.

// offerFilters makes the field above a list of regions show the rows whose
// names hold what is typed.
function offerFilters() {
  const field = document.getElementById("filter"), table = document.querySelector("table.list");
  if (!field || !table) return;
  const rows = [...table.tBodies[0].rows].map(row => ({ row, name: foldName(row.cells[0].textContent) }));
  if (rows.length < 8) return;
  field.closest(".filter").hidden = false;
  const count = document.getElementById("shown");
  field.addEventListener("input", () => {
    const typed = foldName(field.value);
    let shown = 0;
    for (const { row, name } of rows) {
      row.hidden = !name.includes(typed);
      if (!row.hidden) shown++;
    }
    count.textContent = typed === "" ? "" : `${shown} of ${rows.length}`;
  });
}
