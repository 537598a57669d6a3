package comparison

import (
	"fmt"
	"slices"
	"strings"

	"weekband/regions/shifts"
	"weekband/render/tables"
)

// namedRegions is how many regions of a kind are named.
const namedRegions = 8

// writeRegions counts regions and names those that moved farthest.
func (c *Comparison) writeRegions(b *strings.Builder, rows []shifts.Row) {
	if len(rows) == 0 {
		return
	}
	c.writeCounts(b, rows)
	if d, n := shifts.MiddleDates(rows); n > 0 {
		fmt.Fprintf(b, "  calendars    days later, in the middle region: on time from %+.0f to %+.0f, catching up until %+.0f\n", d.OntimeFrom, d.OntimeTo, d.CatchupTo)
	}
	for _, k := range []struct {
		change shifts.Change
		head   string
	}{
		{shifts.Earlier, "earlier"}, {shifts.Later, "later"}, {shifts.Gained, "week gained"}, {shifts.Lost, "week lost"},
		{shifts.Added, "added"}, {shifts.Left, "left out"},
	} {
		c.writeRows(b, k.head, shifts.Of(rows, k.change))
	}
}

// writeCounts counts regions by what became of their week.
func (c *Comparison) writeCounts(b *strings.Builder, rows []shifts.Row) {
	gained, lost := "a week now and none before in", "none now and one before in"
	if c.twoWindows() {
		gained, lost = "a week in the second only in", "in the first only in"
	}
	count := map[shifts.Change]int{}
	redrawn := 0
	for i := range rows {
		count[rows[i].Change()]++
		if rows[i].Redrawn() {
			redrawn++
		}
	}
	fmt.Fprintf(b, "  regions      %d: week the same in %d, earlier in %d, later in %d", len(rows), count[shifts.Same], count[shifts.Earlier], count[shifts.Later])
	for _, k := range []struct {
		change shifts.Change
		what   string
	}{
		{shifts.Gained, gained}, {shifts.Lost, lost}, {shifts.None, "none in either in"},
		{shifts.Added, "only in the newer:"}, {shifts.Left, "only in the older:"},
	} {
		if n := count[k.change]; n > 0 {
			fmt.Fprintf(b, ", %s %d", k.what, n)
		}
	}
	b.WriteString("\n")
	if redrawn > 0 {
		fmt.Fprintf(b, "  %d regions have another area than before: part of the shift of their weeks comes from their outlines\n", redrawn)
	}
}

// writeRows names the regions of one kind: those that moved by how far, others
// in the order of the table.
func (c *Comparison) writeRows(b *strings.Builder, head string, rows []*shifts.Row) {
	if len(rows) > 0 && rows[0].Told() {
		slices.SortStableFunc(rows, farthestFirst)
	}
	for i, r := range rows {
		if i == namedRegions {
			fmt.Fprintf(b, "    %-12s and %d more\n", "", len(rows)-i)
			return
		}
		line := ""
		switch {
		case r.Told():
			line = fmt.Sprintf("%s → %s, %+.1f days in the middle", c.words().Week(r.Before.Week), c.words().Week(r.After.Week), tables.Round(r.Median, 1))
		case r.After.HasWeek():
			line = c.words().Week(r.After.Week)
		case r.Before.HasWeek():
			line = c.words().Week(r.Before.Week)
		}
		fmt.Fprintf(b, "    %-12s %-28s %s\n", head, r.Name, line)
		head = ""
	}
}
