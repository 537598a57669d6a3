package lookup

import (
	"math"
	"slices"
)

// Scales are the values that the levels of a block stand for, in days,
// ascending. Level 0 of each is exactly 0.
type Scales struct {
	Lead   []float64 `json:"lead"`   // crossing day less the begin of on time
	Tail   []float64 `json:"tail"`   // end of catching up less the crossing day
	Spread []float64 `json:"spread"` // from year to year
	Error  []float64 `json:"error"`  // standard error of the crossing day
}

// precision is what is kept of a cell.
type precision struct {
	perDay                    int     // parts of a day told apart in the crossing day
	lead, tail, spread, error float64 // ratio of one level to the one before
}

// fine is for small editions, coarse keeps a country of half a million cells
// and two windows under a megabyte. A coarse crossing day is right to half a
// day, the begin of on time and the end of catching up to 3.5 and 3 % of their
// distance from it (a day of a month), spread and error to 6 and 10 %. No date
// is known as well as that.
var (
	fine   = precision{perDay: 4, lead: 1.03, tail: 1.03, spread: 1.04, error: 1.04}
	coarse = precision{perDay: 1, lead: 1.07, tail: 1.06, spread: 1.12, error: 1.2}
)

// fineCells is how many cells an edition has at most to be kept fine.
const fineCells = 100_000

func precisionFor(cells int) precision {
	if cells <= fineCells {
		return fine
	}
	return coarse
}

func (p precision) scales() Scales {
	return Scales{Lead: ladder(p.lead), Tail: ladder(p.tail), Spread: ladder(p.spread), Error: ladder(p.error)}
}

// ladder returns 0 and then values from half a day up to at least a year, each
// the given ratio above the one before, to hundredths of a day. Ratios from
// 1.03 stay under the 256 levels a byte can count.
func ladder(ratio float64) []float64 {
	out := []float64{0}
	for v := 0.5; ; v *= ratio {
		out = append(out, math.Round(v*100)/100)
		if v > 366 {
			return out
		}
	}
}

// level returns the index of the value nearest to v, the lower of two as near.
func level(scale []float64, v float64) int {
	i, _ := slices.BinarySearch(scale, v)
	switch {
	case i == 0:
		return 0
	case i == len(scale) || v-scale[i-1] <= scale[i]-v:
		return i - 1
	}
	return i
}
