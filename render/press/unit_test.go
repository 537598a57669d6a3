package press

import (
	"math"
	"testing"
)

// Units are the same on every machine: no power that a page may need lies so
// near the edge between two results that eight units in the last place, far
// more than any machine's math errs by, would change it.
func TestUnitsAreTheSameEverywhere(t *testing.T) {
	for width := 300.0; width <= 4800; width++ {
		exact := 13 * math.Pow(width/900, 0.6)
		ulp := math.Nextafter(exact, math.Inf(1)) - exact
		if float32(exact-8*ulp) != float32(exact+8*ulp) {
			t.Errorf("a width of %v: the unit %v lies on an edge of rounding", width, exact)
		}
	}
}
