package comparison

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"weekband/cmd/weekband/internal/phrase"
	"weekband/grid/shift"
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

// roughShift tells a shift in days in words, weeks from half a week on; "" for less
// than a day, which no calendar shows.
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
