package comparison

import (
	"fmt"
	"slices"
	"strings"

	"weekband/cmd/weekband/internal/cause"
	"weekband/cmd/weekband/internal/phrase"
	"weekband/grid/shift"
	"weekband/regions/shifts"
)

// paragraph tells readers what moved, ready to publish: weeks, no days that
// nobody can act on, and the cautions.
func (c *Comparison) paragraph() string {
	var parts []string
	for i := range c.windows {
		w := &c.windows[i]
		if c.twoWindows() {
			parts = append(parts, c.gap(w))
		} else {
			parts = append(parts, c.moved(w))
		}
	}
	if end := c.explained(); end != "" {
		parts = append(parts, end)
	}
	return strings.Join(append(parts, c.words().Sentences.Caution), "\n\n") + "\n"
}

// explained tells why anything moved, and why weeks change that moved by days;
// "" when there is nothing to tell.
func (c *Comparison) explained() string {
	if c.same() || c.twoWindows() {
		return ""
	}
	var said []string
	if why := cause.Sentence(c.causes); why != "" {
		said = append(said, "Behind the change: "+why+".")
	}
	if slices.ContainsFunc(c.windows, func(w comparedWindow) bool { return w.sum.TurnedByDays() }) {
		said = append(said, "Weeks are steps of seven days: a place at the edge of one has another week as soon as it moves by a day.")
	}
	return strings.Join(said, " ")
}

// moved tells how a window moved between two editions.
func (c *Comparison) moved(w *comparedWindow) string {
	older, newer := c.names()
	if w.same() {
		return fmt.Sprintf("%s: nothing has moved from %s to %s.", w.after.Title, older, newer)
	}
	s := &w.sum
	common := s.FateKm2[shift.Moved]
	if common == 0 {
		return fmt.Sprintf("%s: no ground has a week both in %s and in %s.", w.after.Title, older, newer)
	}
	text := fmt.Sprintf("%s: in %s the typical week comes on the whole %s in %s%s.", w.after.Title, newer, comparative(s.Median), older, eightTenths(s))
	earlier, same, later := s.Turned()
	text += " " + turned(earlier/common, same/common, later/common) + "."
	if gained := s.FateKm2[shift.Gained] / s.Km2; gained >= worthAWord {
		text += fmt.Sprintf(" Another %s has a week now and had none.", phrase.Percent(gained))
	}
	if lost := s.FateKm2[shift.Lost] / s.Km2; lost >= worthAWord {
		text += fmt.Sprintf(" On %s no week can be told any longer.", phrase.Percent(lost))
	}
	if regions := c.regionsMoved(w); regions != "" {
		text += " " + regions
	}
	return text
}

// gap tells how far apart two windows of an edition lie.
func (c *Comparison) gap(w *comparedWindow) string {
	s := &w.sum
	if s.FateKm2[shift.Moved] == 0 {
		return fmt.Sprintf("No ground has a week both of “%s” and of “%s”.", w.before.Title, w.after.Title)
	}
	text := fmt.Sprintf("The typical week of “%s” comes on the whole %s that of “%s”%s.", w.after.Title, comparative(s.Median), w.before.Title, eightTenths(s))
	told := slices.DeleteFunc(pointers(w.rows), func(r *shifts.Row) bool { return !r.Told() })
	if len(told) < 2 {
		return text
	}
	slices.SortStableFunc(told, farthestFirst)
	far, near := told[0], told[len(told)-1]
	if far.Weeks() == near.Weeks() {
		return text
	}
	return text + fmt.Sprintf(" They lie farthest apart in %s (%s) and closest together in %s (%s).", far.Name, c.weeksOf(far, "and"), near.Name, c.weeksOf(near, "and"))
}

// regionsMoved tells how the weeks of regions turned, "" without regions.
func (c *Comparison) regionsMoved(w *comparedWindow) string {
	same, earlier, later := len(shifts.Of(w.rows, shifts.Same)), shifts.Of(w.rows, shifts.Earlier), shifts.Of(w.rows, shifts.Later)
	all := same + len(earlier) + len(later)
	if all == 0 {
		return ""
	}
	if same == all {
		return fmt.Sprintf("All %d regions that have a week in both keep it.", all)
	}
	var parts []string
	for _, part := range []struct {
		rows []*shifts.Row
		word string
	}{{earlier, "an earlier one"}, {later, "a later one"}} {
		if len(part.rows) == 0 {
			continue
		}
		far := slices.MinFunc(part.rows, farthestFirst)
		verb, most := "have", ", most of all "
		if len(part.rows) == 1 {
			verb, most = "has", ", "
		}
		parts = append(parts, fmt.Sprintf("%d %s %s%s%s (from %s)", len(part.rows), verb, part.word, most, far.Name, c.weeksOf(far, "to")))
	}
	keep := fmt.Sprintf("%d keep it", same)
	switch same {
	case 0:
		keep = "none keeps it"
	case 1:
		keep = "1 keeps it"
	}
	return fmt.Sprintf("Of %d regions that have a week in both %s; %s.", all, keep, strings.Join(parts, ", and "))
}
