package classes

import (
	"strconv"
	"strings"

	"weekband/grid"
)

// Max is how many classes a legend of a quantity holds at most. Conventions
// of cartography ask for five to seven.
const Max = 7

// Class is a stretch of values, half-open: From ≤ v < To. An open end holds
// all values beyond as well.
type Class struct {
	From, To           float64
	OpenBegin, OpenEnd bool
}

// String writes the limits: "2–5", "under 2", "10 or more", "−2 to 1".
func (c Class) String() string {
	switch {
	case c.OpenBegin && c.OpenEnd:
		return "all"
	case c.OpenBegin:
		return "under " + number(c.To)
	case c.OpenEnd:
		return number(c.From) + " or more"
	}
	if c.From < 0 {
		return number(c.From) + " to " + number(c.To)
	}
	return number(c.From) + "–" + number(c.To)
}

// number writes a value with a minus as wide as a figure.
func number(v float64) string {
	return strings.Replace(strconv.FormatFloat(v, 'f', -1, 64), "-", "−", 1)
}

// Breaks returns the limits between classes.
func Breaks(list []Class) []float64 {
	var breaks []float64
	for _, c := range list[min(1, len(list)):] {
		breaks = append(breaks, c.From)
	}
	return breaks
}

// of returns the index of the class that holds a value; values beyond the
// ends count as of the first or last. It panics when there are no classes.
func of(list []Class, v float64) int {
	i := len(list) - 1
	for i > 0 && v < list[i].From {
		i--
	}
	return i
}

// Areas returns the area in km² of the cells in each class.
func Areas(list []Class, r *grid.Raster[float32]) []float64 {
	km2 := make([]float64, len(list))
	for v, area := range r.Areas() {
		km2[of(list, float64(v))] += area
	}
	return km2
}
