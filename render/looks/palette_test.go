package looks

import (
	"math"
	"testing"

	"github.com/lucasb-eyer/go-colorful"

	"weekband/grid/status"
	"weekband/render/canvas"
	"weekband/render/internal/eye"
)

// bound is the least ΔE2000 between neighbours, by number of classes. About
// 2.3 is just noticeable side by side (Mahy et al. 1994, from memory); a
// palette must stay well clear of it. The figures are a little under what the
// palette reaches.
var bound = map[int]float64{2: 30, 3: 16, 4: 18, 5: 14, 6: 11.5, 7: 10, 8: 8.8, 9: 7.2, 10: 5.8, 11: 5.5, 12: 5.5, 13: 4.7, 14: 4.2, 15: 3.8, 16: 3.3, 17: 3.3, 18: 3.3}

func TestPaletteStaysApart(t *testing.T) {
	for _, season := range Schemes {
		for n, want := range bound {
			p := season.Palette(n)
			for name, m := range eye.Sights {
				least := math.Inf(1)
				for i := 1; i < n; i++ {
					least = min(least, eye.Difference(eye.Seen(p[i-1], m), eye.Seen(p[i], m)))
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
		ramp := Weeks(Wheatnight, n, true)
		for i := 1; i < n; i++ {
			if ramp[i].Pattern == ramp[i-1].Pattern {
				t.Errorf("%d classes: %d and %d share a texture", n, i-1, i)
			}
		}
		for i := 2; i < n; i++ {
			if d := eye.Difference(eye.Seen(ramp[i-2].Tone, eye.Normal), eye.Seen(ramp[i].Tone, eye.Normal)); d < 6 {
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
			a, b := Statuses[i], Statuses[k]
			for name, m := range eye.Sights {
				if d := eye.Difference(eye.Seen(a.Tone, m), eye.Seen(b.Tone, m)); d < 7 {
					t.Errorf("%v and %v differ by %.1f under %s", status.All[i], status.All[k], d, name)
				}
			}
			d := eye.Difference(eye.Seen(canvas.GreyOf(a.Tone), eye.Normal), eye.Seen(canvas.GreyOf(b.Tone), eye.Normal))
			if a.Pattern == b.Pattern && d < 25 {
				t.Errorf("%v and %v share a texture and differ by only %.1f in grey", status.All[i], status.All[k], d)
			}
		}
	}
}
