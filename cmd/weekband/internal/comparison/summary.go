package comparison

import (
	"fmt"
	"strings"

	"weekband/cmd/weekband/internal/phrase"
	"weekband/grid/shift"
	"weekband/render/tables"
)

// Summary tells the owner what moved and why, in lines of text, and ends with the
// paragraph to publish.
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

// thousands writes an area in whole km² with commas.
func thousands(km2 float64) string {
	text := fmt.Sprintf("%.0f", km2)
	for i := len(text) - 3; i > 0; i -= 3 {
		text = text[:i] + "," + text[i:]
	}
	return text
}
