package eye

import (
	"image/color"
	"math"
	"testing"

	"github.com/lucasb-eyer/go-colorful"
)

// Two pairs of Sharma, Wu & Dalal 2005, "The CIEDE2000 color-difference
// formula", Color Res. Appl. 30:21, table 1 (from memory): the measure that
// palettes are judged by.
func TestColorDifference(t *testing.T) {
	for _, c := range []struct{ l1, a1, b1, l2, a2, b2, want float64 }{
		{50, 2.6772, -79.7751, 50, 0, -82.7485, 2.0425},
		{50, 2.5, 0, 58, 24, 15, 19.4535},
	} {
		got := Difference(colorful.Lab(c.l1/100, c.a1/100, c.b1/100), colorful.Lab(c.l2/100, c.a2/100, c.b2/100))
		if math.Abs(got-c.want) > 5e-4 {
			t.Errorf("difference %.4f, want %.4f", got, c.want)
		}
	}
	for name, m := range Sights {
		for _, row := range m {
			if sum := row[0] + row[1] + row[2]; math.Abs(sum-1) > 2e-6 {
				t.Errorf("%s: a row adds to %g", name, sum)
			}
		}
	}
}

// Three greys on white, worked out by hand from the definition.
func TestContrast(t *testing.T) {
	grey := func(v uint8) color.NRGBA { return color.NRGBA{R: v, G: v, B: v, A: 255} }
	for v, want := range map[uint8]float64{0x76: 4.5422, 0x94: 3.0335, 0x59: 7.0047} {
		if got := Contrast(grey(v), grey(255)); math.Abs(got-want) > 1e-4 {
			t.Errorf("contrast of grey %x on white is %.4f, want %.4f", v, got, want)
		}
	}
}
