package comparison

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"weekband/cmd/weekband/internal/cause"
	"weekband/cmd/weekband/internal/phrase"
	"weekband/grid/shift"
	"weekband/regions/shifts"
	"weekband/render/wording"
)

// names returns what the two editions are called within a sentence.
func (c *Comparison) names() (older, newer string) {
	w := &c.words().Sentences.Shift
	a, b := &c.older.made, &c.newer.made
	switch {
	case a.Edition != b.Edition:
		return w.OfYear(a.Edition), w.OfYear(b.Edition)
	case a.Period != b.Period && a.Period != "" && b.Period != "":
		return w.OfPeriod(a.Period), w.OfPeriod(b.Period)
	}
	return w.Older, w.Newer
}

// words are those of the newer edition.
func (c *Comparison) words() *wording.Language { return c.newer.lookup.Words }

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
		most := ", most of all "
		if len(part.rows) == 1 {
			most = ", "
		}
		verb := "have"
		if len(part.rows) == 1 {
			verb = "has"
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

// weeksOf writes a region's weeks before and after, with a word between.
func (c *Comparison) weeksOf(r *shifts.Row, and string) string {
	return c.words().Week(r.Before.Week) + " " + and + " " + c.words().Week(r.After.Week)
}

// farthestFirst sorts by the number of weeks, then of days, then by name.
func farthestFirst(a, b *shifts.Row) int {
	far := func(r *shifts.Row) float64 { return float64(math.Abs(float64(r.Weeks()))*1000) + math.Abs(r.Median) }
	if x, y := far(a), far(b); x != y {
		if x > y {
			return -1
		}
		return 1
	}
	return strings.Compare(a.Name+"\x00"+a.ID, b.Name+"\x00"+b.ID)
}

func pointers(rows []shifts.Row) []*shifts.Row {
	out := make([]*shifts.Row, len(rows))
	for i := range rows {
		out[i] = &rows[i]
	}
	return out
}

// worthAWord is the share of the ground from which it is told, what is written
// as 1 percent.
const worthAWord = 0.005

// turned tells how the weeks of the ground turned, by shares of it.
func turned(earlier, same, later float64) string {
	switch {
	case same > 1-worthAWord:
		return "Nearly all of the ground keeps its week"
	case earlier > 1-worthAWord:
		return "Nearly all of the ground has an earlier week"
	case later > 1-worthAWord:
		return "Nearly all of the ground has a later week"
	}
	text := phrase.Percent(same) + " of the ground that has a week in both keeps it"
	if same < worthAWord {
		text = "Hardly any ground keeps its week"
	}
	var parts []string
	if earlier >= worthAWord {
		parts = append(parts, phrase.Percent(earlier)+" has an earlier one")
	}
	if later >= worthAWord {
		parts = append(parts, phrase.Percent(later)+" has a later one")
	}
	return text + ", " + strings.Join(parts, " and ")
}

// comparative tells a shift as readers need it, up to the other edition.
func comparative(days float64) string {
	if amount := roughShift(days); amount != "" {
		return amount + " than"
	}
	return "at the same time as"
}

// eightTenths tells the shift of eight tenths of the ground, unless it is told as
// that of the middle is.
func eightTenths(s *shift.Sum) string {
	a, m, b := roughShift(s.P10), roughShift(s.Median), roughShift(s.P90)
	if a == m && b == m {
		return ""
	}
	say := func(text string) string { return cmp.Or(text, "no shift") }
	return fmt.Sprintf(" (eight tenths of the ground: from %s to %s)", say(a), say(b))
}

// roughShift tells a shift in days in words, weeks from half a week on; "" for less than
// a day, which no calendar shows.
func roughShift(days float64) string {
	side := "later"
	if days < 0 {
		side = "earlier"
	}
	const week = 7
	switch far := math.Abs(days); {
	case far < 1:
		return ""
	case far < week/2.0:
		return "a few days " + side
	case far < 1.5*week:
		return "about a week " + side
	default:
		return fmt.Sprintf("about %.0f weeks %s", far/week, side)
	}
}
