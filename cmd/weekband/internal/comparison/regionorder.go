package comparison

import (
	"math"
	"strings"

	"weekband/regions/shifts"
)

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

// weeksOf writes a region's weeks before and after, with a word between.
func (c *Comparison) weeksOf(r *shifts.Row, and string) string {
	return c.words().Week(r.Before.Week) + " " + and + " " + c.words().Week(r.After.Week)
}
