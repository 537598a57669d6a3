package looks

import (
	"image/color"
	"math"
	"testing"

	"github.com/lucasb-eyer/go-colorful"

	"weekband/render/canvas"
	"weekband/render/internal/eye"
)

func lightness(c color.NRGBA) float64 {
	l, _, _ := canvas.OKLChOf(c)
	return l
}

// apart is the least ΔE2000 between neighbouring classes of a quantity, by
// number of classes; the measure and the threshold of notice are those of
// TestPaletteStaysApart.
var apart = map[int]float64{2: 20, 3: 15, 4: 14, 5: 11, 6: 9, 7: 7.4}

func TestAmountsStayApart(t *testing.T) {
	for n, want := range apart {
		p := NewAmounts(n)
		for name, m := range eye.Sights {
			least := math.Inf(1)
			for i := 1; i < n; i++ {
				least = min(least, eye.Difference(eye.Seen(p[i-1], m), eye.Seen(p[i], m)))
			}
			t.Logf("%d classes, %s: %.2f", n, name, least)
			if least < want {
				t.Errorf("%d classes under %s: neighbours differ by %.2f, want %.1f", n, name, least, want)
			}
		}
	}
}

func TestAmountsDarken(t *testing.T) {
	for n := 1; n <= 12; n++ {
		p := NewAmounts(n)
		if len(p) != n {
			t.Fatalf("%d colours for %d classes", len(p), n)
		}
		for i := 1; i < n; i++ {
			a, _ := colorful.MakeColor(p[i-1])
			b, _ := colorful.MakeColor(p[i])
			la, _, _ := a.Lab()
			lb, _, _ := b.Lab()
			if !(lb < la) {
				t.Errorf("%d classes: %d has lightness %.3f after %.3f", n, i, lb, la)
			}
		}
	}
}

// No class of a quantity looks like a week to normal sight, and its hue is
// more than 50 degrees from that of any week.
func TestAmountsAreNoWeeks(t *testing.T) {
	for _, amount := range NewAmounts(7) {
		for _, week := range append(Wheatnight.Palette(52), Millpond.Palette(52)...) {
			if d := eye.Difference(eye.Seen(amount, eye.Normal), eye.Seen(week, eye.Normal)); d < 15 {
				t.Errorf("%v and the week %v differ by %.1f", amount, week, d)
			}
			_, _, h1 := canvas.OKLChOf(amount)
			_, _, h2 := canvas.OKLChOf(week)
			if off := math.Abs(math.Remainder(h1-h2, 360)); off < 50 {
				t.Errorf("%v has hue %.0f, the week %v %.0f", amount, h1, week, h2)
			}
		}
	}
}

// Changes are as light on both sides, get darker away from the middle, and
// keep apart from their neighbours and from the same distance on the other
// side, whatever the sight. The middle has no hue to speak of.
func TestChanges(t *testing.T) {
	for _, n := range []int{1, 3, 5, 7} {
		p := NewChanges(n)
		if _, chroma, _ := canvas.OKLChOf(p[n/2]); chroma > 0.01 {
			t.Errorf("%d classes: the middle has chroma %.3f", n, chroma)
		}
		for i := range n / 2 {
			if a, b := lightness(p[i]), lightness(p[n-1-i]); math.Abs(a-b) > 0.012 {
				t.Errorf("%d classes: %d has lightness %.3f, its mirror %.3f", n, i, a, b)
			}
			if !(lightness(p[i]) < lightness(p[i+1])) {
				t.Errorf("%d classes: %d is lighter than the next inward", n, i)
			}
			for name, m := range eye.Sights {
				mirror := eye.Difference(eye.Seen(p[i], m), eye.Seen(p[n-1-i], m))
				inward := min(eye.Difference(eye.Seen(p[i], m), eye.Seen(p[i+1], m)), eye.Difference(eye.Seen(p[n-1-i], m), eye.Seen(p[n-2-i], m)))
				t.Logf("%d classes, class %d, %s: mirror %.1f, inward %.1f", n, i, name, mirror, inward)
				if mirror < 17 || inward < 11 {
					t.Errorf("%d classes under %s: class %d differs by %.1f from its mirror, by %.1f from the next inward", n, name, i, mirror, inward)
				}
			}
		}
	}
}

// On a copier neighbouring classes of a quantity differ by texture, those of
// one texture by tone.
func TestGreyAmounts(t *testing.T) {
	for n := 2; n <= 7; n++ {
		ramp := Amounts(n, true)
		for i, l := range ramp {
			if i > 0 && l.Pattern == ramp[i-1].Pattern {
				t.Errorf("%d classes: %d and %d share a texture", n, i-1, i)
			}
			if i > 1 {
				if d := eye.Difference(eye.Seen(ramp[i-2].Tone, eye.Normal), eye.Seen(l.Tone, eye.Normal)); d < 11 {
					t.Errorf("%d classes: tones %d and %d differ by %.1f", n, i-2, i, d)
				}
			}
		}
	}
}

// On a copier the sides of a change differ by texture and its distances by
// tone.
func TestGreyChanges(t *testing.T) {
	normal := eye.Normal
	for _, n := range []int{3, 5, 7} {
		ramp := Changes(n, true)
		for i := range n / 2 {
			if a, b := ramp[i].Pattern, ramp[n-1-i].Pattern; a == b || b != canvas.Plain {
				t.Errorf("%d classes: %d has pattern %d, its mirror %d", n, i, a, b)
			}
			for _, pair := range [][2]int{{i, i + 1}, {n - 1 - i, n - 2 - i}} {
				if d := eye.Difference(eye.Seen(ramp[pair[0]].Tone, normal), eye.Seen(ramp[pair[1]].Tone, normal)); d < 11 {
					t.Errorf("%d classes: tones %d and %d differ by %.1f", n, pair[0], pair[1], d)
				}
			}
		}
	}
}
