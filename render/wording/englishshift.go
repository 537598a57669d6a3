package wording

import (
	"fmt"
	"math"

	"weekband/grid/classes"
)

func englishShift() Shift {
	return Shift{
		Editions: func(event, newer, older string) string {
			return fmt.Sprintf("How much earlier or later %s in %s than in %s", event, newer, older)
		},
		Events: func(after, newer, before, older string) string {
			return fmt.Sprintf("How much earlier or later %s in %s than %s in %s", after, newer, before, older)
		},
		Windows: func(second, first string) string {
			return fmt.Sprintf("How much earlier or later the week of “%s” comes than that of “%s”", second, first)
		},
		OfYear:   func(year int) string { return fmt.Sprintf("the edition of %d", year) },
		OfPeriod: func(period string) string { return "the edition with normals of " + period },
		Newer:    "the newer edition", Older: "the older one",
		Compared: func(edition string) string { return "Compared with: " + edition },
		Heading:  "Shift of the typical week", Days: englishDaysLater, Weeks: englishWeeksLater,
		Gained: "has a week now, had none", Lost: "had a week, has none now", Undated: "no week in either", Apart: "only in one of the two",
		Only:  func(window string) string { return fmt.Sprintf("only “%s” has a week", window) },
		Later: "Days later",
	}
}

// side returns the word for the side a class lies on, and its limits as
// distances; none for the class about zero.
func side(c classes.Class) (word string, near, far float64, open bool) {
	switch {
	case c.To <= 0:
		return "earlier", -c.To, -c.From, c.OpenBegin
	case c.From >= 0:
		return "later", c.From, c.To, c.OpenEnd
	}
	return "", 0, c.To, false
}

func englishDaysLater(c classes.Class) string {
	word, near, far, open := side(c)
	switch {
	case word == "":
		return "within " + count(far, "day")
	case open:
		return fmt.Sprintf("%g days or more %s", near, word)
	}
	return fmt.Sprintf("%g–%g days %s", near, far, word)
}

// englishWeeksLater writes classes of one week by the week they are about, and
// wider ones by their limits.
func englishWeeksLater(c classes.Class, step int) string {
	const week = 7.0
	word, near, far, open := side(c)
	near, far = near/week, far/week
	about := math.Round(near + 0.5)
	switch {
	case word == "" && step == 1:
		return "within half a week"
	case word == "":
		return "within " + count(far, "week")
	case step == 1 && open:
		return fmt.Sprintf("%s or more %s", count(about, "week"), word)
	case step == 1:
		return fmt.Sprintf("about %s %s", count(about, "week"), word)
	case open:
		return fmt.Sprintf("%s or more %s", count(near, "week"), word)
	}
	return fmt.Sprintf("%g–%g weeks %s", near, far, word)
}

// count writes a number with its unit.
func count(n float64, unit string) string {
	if n == 1 {
		return "1 " + unit
	}
	return fmt.Sprintf("%g %ss", n, unit)
}
