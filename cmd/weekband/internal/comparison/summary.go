package comparison

import (
	"fmt"
	"slices"
	"strings"

	"weekband/cmd/weekband/internal/phrase"
	"weekband/grid/shift"
	"weekband/regions/shifts"
	"weekband/render/tables"
)

// Summary tells the owner what moved and why, and ends with the paragraph to
// publish.
func (c *Comparison) Summary() string {
	var b strings.Builder
	older, newer := c.names()
	if c.twoWindows() {
		fmt.Fprintf(&b, "%s, edition %d: two windows\n", c.newer.made.Title, c.newer.made.Edition)
	} else {
		fmt.Fprintf(&b, "%s: %s against %s\n", c.newer.made.Title, newer, older)
	}
	if c.same() {
		fmt.Fprintf(&b, "Nothing moved: every cell and every region has the same week in both (%s).\n", c.windowList())
		c.writeCauses(&b, "What differs all the same")
		return b.String()
	}
	if !c.twoWindows() {
		c.writeCauses(&b, "Why")
	}
	for i := range c.windows {
		c.writeWindow(&b, &c.windows[i])
	}
	fmt.Fprintf(&b, "\nTo publish:\n\n%s", c.paragraph())
	return b.String()
}

func (c *Comparison) windowList() string {
	var ids []string
	for i := range c.windows {
		ids = append(ids, c.windows[i].after.ID)
	}
	return strings.Join(ids, ", ")
}

// writeCauses lists the causes, and what differs besides.
func (c *Comparison) writeCauses(b *strings.Builder, head string) {
	moving := 0
	for _, cause := range c.causes {
		if cause.Moves {
			moving++
		}
	}
	switch {
	case len(c.causes) == 0 && c.same():
		return
	case moving == 0 && !c.same():
		fmt.Fprintf(b, "%s: the manifests tell nothing that could have moved a week\n", head)
	default:
		fmt.Fprintf(b, "%s:\n", head)
	}
	for _, cause := range c.causes {
		mark := ""
		if !cause.Moves {
			mark = " (moves no week of a cell)"
		}
		fmt.Fprintf(b, "  %s%s\n", cause.Text, mark)
	}
	if moving > 1 && !c.same() {
		b.WriteString("  What each of these moved alone cannot be told: build with one change at a time to see.\n")
	}
}

// writeWindow tells what moved in one window.
func (c *Comparison) writeWindow(b *strings.Builder, w *comparedWindow) {
	head := fmt.Sprintf("%s, %v to %s", w.after.Title, w.after.Direction, w.after.Threshold.Both())
	if w.before.ID != w.after.ID {
		head += fmt.Sprintf("; against %s, %v to %s", w.before.Title, w.before.Direction, w.before.Threshold.Both())
	}
	fmt.Fprintf(b, "\n%s\n", head)
	s := &w.sum
	common := s.FateKm2[shift.Moved]
	if common > 0 {
		fmt.Fprintf(b, "  days later   %+.1f in the middle; eight tenths of the ground from %+.1f to %+.1f, all from %+.1f to %+.1f; less than 0 is earlier\n",
			tables.Round(s.Median, 1), tables.Round(s.P10, 1), tables.Round(s.P90, 1), tables.Round(s.Earliest, 1), tables.Round(s.Latest, 1))
		earlier, same, later := s.Turned()
		fmt.Fprintf(b, "  weeks        earlier on %s of the ground, the same on %s, later on %s%s\n", phrase.Percent(earlier/common), phrase.Percent(same/common), phrase.Percent(later/common), farWeeks(s))
	}
	c.writeGround(b, s)
	c.writeRegions(b, w.rows)
}

// writeGround tells of ground that has a week in one of the two only, or in
// neither.
func (c *Comparison) writeGround(b *strings.Builder, s *shift.Sum) {
	gained, lost := "has a week and had none", "had a week and has none"
	if c.twoWindows() {
		gained, lost = "has a week in the second only", "has a week in the first only"
	}
	for _, g := range []struct {
		km2  float64
		what string
	}{
		{s.FateKm2[shift.Gained], gained}, {s.FateKm2[shift.Lost], lost},
		{s.OtherKm2, "has no week in either, for another reason than before"},
		{s.FateKm2[shift.OnlyAfter], "is new"}, {s.FateKm2[shift.OnlyBefore], "is no longer there"},
	} {
		if g.km2 > 0 {
			fmt.Fprintf(b, "  ground       %s km² (%.1f %%) %s\n", thousands(g.km2), 100*g.km2/s.Km2, g.what)
		}
	}
}

// farWeeks counts the ground that moved by two weeks or more.
func farWeeks(s *shift.Sum) string {
	far := 0.0
	for weeks := -26; weeks < 26; weeks++ {
		if weeks < -1 || weeks > 1 {
			far += s.At(weeks)
		}
	}
	if share := far / s.FateKm2[shift.Moved]; share >= worthAWord {
		return fmt.Sprintf("; by two weeks or more on %s", phrase.Percent(share))
	}
	return ""
}

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

// thousands writes an area in whole km² with commas.
func thousands(km2 float64) string {
	text := fmt.Sprintf("%.0f", km2)
	for i := len(text) - 3; i > 0; i -= 3 {
		text = text[:i] + "," + text[i:]
	}
	return text
}
