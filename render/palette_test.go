package render

import (
	"image/color"
	"math"
	"testing"

	"github.com/lucasb-eyer/go-colorful"

	"weekband/grid/status"
)

// machado are the matrices of Machado, Oliveira & Fernandes 2009, "A
// physiologically-based model for simulation of color vision deficiency",
// IEEE TVCG 15:1291, severity 1.0, on linear RGB; from memory. The rows of
// each must add to 1: white stays white.
var machado = map[string][3][3]float64{
	"normal sight": {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}},
	"protanopia":   {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}},
	"deuteranopia": {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}},
	"tritanopia":   {{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}},
}

// seen returns a colour as one kind of sight sees it.
func seen(c color.NRGBA, m [3][3]float64) colorful.Color {
	v, _ := colorful.MakeColor(c)
	r, g, b := v.LinearRgb()
	row := func(k int) float64 { return m[k][0]*r + m[k][1]*g + m[k][2]*b }
	return colorful.LinearRgb(row(0), row(1), row(2)).Clamped()
}

// difference is ΔE2000 on the usual scale of 100.
func difference(a, b colorful.Color) float64 { return 100 * a.DistanceCIEDE2000(b) }

// Two pairs of Sharma, Wu & Dalal 2005, "The CIEDE2000 color-difference
// formula", Color Res. Appl. 30:21, table 1 (from memory): the measure the
// palette is judged by.
func TestColorDifference(t *testing.T) {
	for _, c := range []struct{ l1, a1, b1, l2, a2, b2, want float64 }{
		{50, 2.6772, -79.7751, 50, 0, -82.7485, 2.0425},
		{50, 2.5, 0, 58, 24, 15, 19.4535},
	} {
		got := difference(colorful.Lab(c.l1/100, c.a1/100, c.b1/100), colorful.Lab(c.l2/100, c.a2/100, c.b2/100))
		if math.Abs(got-c.want) > 5e-4 {
			t.Errorf("difference %.4f, want %.4f", got, c.want)
		}
	}
	for name, m := range machado {
		for _, row := range m {
			if sum := row[0] + row[1] + row[2]; math.Abs(sum-1) > 2e-6 {
				t.Errorf("%s: a row adds to %g", name, sum)
			}
		}
	}
}

// bound is the least ΔE2000 between neighbours, by number of classes. About
// 2.3 is just noticeable side by side (Mahy et al. 1994, from memory); a
// palette must stay well clear of it. The figures are a little under what the
// palette reaches.
var bound = map[int]float64{2: 30, 3: 16, 4: 18, 5: 14, 6: 11.5, 7: 10, 8: 8.8, 9: 7.2, 10: 5.8, 11: 5.5, 12: 5.5, 13: 4.7, 14: 4.2, 15: 3.8, 16: 3.3, 17: 3.3, 18: 3.3}

func TestPaletteStaysApart(t *testing.T) {
	for _, season := range Seasons {
		for n, want := range bound {
			p := season.Palette(n)
			for name, m := range machado {
				least := math.Inf(1)
				for i := 1; i < n; i++ {
					least = min(least, difference(seen(p[i-1], m), seen(p[i], m)))
				}
				t.Logf("%v, %d classes, %s: %.2f", season, n, name, least)
				if least < want {
					t.Errorf("%v, %d classes under %s: neighbours differ by %.2f, want %.1f", season, n, name, least, want)
				}
			}
		}
	}
}

func TestLightnessFalls(t *testing.T) {
	for n := 1; n <= 52; n++ {
		for name, p := range map[string]Palette{"wheatnight": Wheatnight.Palette(n), "millpond": Millpond.Palette(n), "greys": NewGreys(n)} {
			if len(p) != n {
				t.Fatalf("%d %s for %d classes", len(p), name, n)
			}
			for i := 1; i < n; i++ {
				before, _ := colorful.MakeColor(p[i-1])
				after, _ := colorful.MakeColor(p[i])
				l1, _, _ := before.Lab()
				l2, _, _ := after.Lab()
				if !(l2 < l1) {
					t.Errorf("%d %s: class %d has lightness %.3f after %.3f", n, name, i, l2, l1)
				}
			}
		}
	}
}

// On a copier neighbours differ by texture, and those of one texture by their
// tone.
func TestGreyClassesStayApart(t *testing.T) {
	for n := 2; n <= 12; n++ {
		looks := bandLooks(Wheatnight, n, true)
		for i := 1; i < n; i++ {
			if looks[i].pattern == looks[i-1].pattern {
				t.Errorf("%d classes: %d and %d share a texture", n, i-1, i)
			}
		}
		for i := 2; i < n; i++ {
			if d := difference(seen(looks[i-2].tone, machado["normal sight"]), seen(looks[i].tone, machado["normal sight"])); d < 6 {
				t.Errorf("%d classes: tones %d and %d differ by %.1f", n, i-2, i, d)
			}
		}
	}
}

// Statuses are told apart by sight of any kind, and in grey by tone or
// texture.
func TestStatusesStayApart(t *testing.T) {
	for i := range status.All {
		for k := range i {
			a, b := statusLooks[i], statusLooks[k]
			for name, m := range machado {
				if d := difference(seen(a.tone, m), seen(b.tone, m)); d < 7 {
					t.Errorf("%v and %v differ by %.1f under %s", status.All[i], status.All[k], d, name)
				}
			}
			d := difference(seen(greyOf(a.tone), machado["normal sight"]), seen(greyOf(b.tone), machado["normal sight"]))
			if a.pattern == b.pattern && d < 25 {
				t.Errorf("%v and %v share a texture and differ by only %.1f in grey", status.All[i], status.All[k], d)
			}
		}
	}
}

// Ground without a week is told apart by texture alone.
func TestUndatedLooksDiffer(t *testing.T) {
	textures := map[Pattern]Reason{}
	for r, l := range undatedLooks {
		if other, taken := textures[l.pattern]; taken {
			t.Errorf("%v and %v share a texture", Reason(r), other)
		}
		textures[l.pattern] = Reason(r)
	}
}

// contrast is that of WCAG 2.2, (L1+0.05)/(L2+0.05) of relative luminances.
func contrast(a, b color.NRGBA) float64 {
	luminance := func(c color.NRGBA) float64 {
		v, _ := colorful.MakeColor(c)
		r, g, u := v.LinearRgb()
		return 0.2126*r + 0.7152*g + 0.0722*u
	}
	x, y := luminance(a), luminance(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// Text keeps 4.5:1 wherever it stands (WCAG 2.2, SC 1.4.3), lines of the map
// and of the legend 3:1 (SC 1.4.11). The three known pairs check the measure.
func TestContrast(t *testing.T) {
	grey := func(v uint8) color.NRGBA { return color.NRGBA{R: v, G: v, B: v, A: 255} }
	for v, want := range map[uint8]float64{0x76: 4.5422, 0x94: 3.0335, 0x59: 7.0047} {
		if got := contrast(grey(v), paper); math.Abs(got-want) > 1e-4 {
			t.Errorf("contrast of grey %x on white is %.4f, want %.4f", v, got, want)
		}
	}
	for name, c := range map[string]struct {
		a, b  color.NRGBA
		least float64
	}{
		"text on paper":         {textColor, paper, 7},
		"lesser text on paper":  {lessColor, paper, 4.5},
		"lesser text on ground": {lessColor, ground, 4.5},
		"names on their halo":   {textColor, haloColor, 7},
		"coast against ground":  {coastInk, ground, 3},
	} {
		if got := contrast(c.a, c.b); got < c.least {
			t.Errorf("%s: contrast %.2f, want %.1f", name, got, c.least)
		}
	}
}
