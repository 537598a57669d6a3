package render

import (
	"fmt"
	"image/color"
	"math"
	"strings"
	"testing"

	"weekband/render/canvas"
	"weekband/render/daychart"
	"weekband/render/internal/eye"
	"weekband/render/looks"
)

// The least contrasts of WCAG 2.2: of text to its ground (SC 1.4.3), and of
// the parts of a picture one must tell apart to what they lie beside (SC
// 1.4.11).
const (
	leastText    = 4.5
	leastGraphic = 3.0
)

// shown is how pages come out: in colour or in grey.
var shownAs = map[string]func(color.NRGBA) color.NRGBA{
	"colour": func(c color.NRGBA) color.NRGBA { return c },
	"grey":   canvas.GreyOf,
}

// classLooks are the looks of all ramps of a kind of map, by kind and number
// of classes.
func classLooks(grey bool) map[string][]canvas.Look {
	out := map[string][]canvas.Look{}
	for n := 1; n <= 18; n++ {
		for _, season := range looks.Schemes {
			out[fmt.Sprintf("%d weeks of %v", n, season)] = looks.Weeks(season, n, grey)
		}
	}
	for n := 1; n <= 7; n++ {
		out[fmt.Sprintf("%d amounts", n)] = looks.Amounts(n, grey)
		if n%2 == 1 {
			out[fmt.Sprintf("%d changes", n)] = looks.Changes(n, grey)
		}
	}
	return out
}

// eachGround calls visit for every look that covers land, in colour and grey.
func eachGround(visit func(name string, as func(color.NRGBA) color.NRGBA, l canvas.Look)) {
	for how, as := range shownAs {
		ramp := classLooks(how == "grey")
		ramp["statuses"], ramp["undated"] = looks.Statuses[:], undatedLooks[:]
		for kind, list := range ramp {
			for i, l := range list {
				visit(fmt.Sprintf("%s: %d of %s", how, i, kind), as, l)
			}
		}
	}
}

// best is the largest contrast between any two of some colours.
func best(colors ...color.NRGBA) float64 {
	most := 0.0
	for i, a := range colors {
		for _, b := range colors[:i] {
			most = max(most, eye.Contrast(a, b))
		}
	}
	return most
}

// cased are the colours of a line with its casing over a ground.
func cased(line, casing, under color.NRGBA) []color.NRGBA {
	rim := eye.Over(casing, under)
	return []color.NRGBA{under, rim, eye.Over(line, rim)}
}

// What is drawn over land shows on whatever lies there. No one ink does on a
// ramp from pale to dark, so lines are dark in light casings, and one of the
// steps from ground to casing to line has 3:1.
func TestLinesShowOnEveryGround(t *testing.T) {
	eachGround(func(name string, as func(color.NRGBA) color.NRGBA, l canvas.Look) {
		under := as(l.Tone)
		for what, pair := range map[string][2]color.NRGBA{
			"border": {canvas.FineInk, borderGlow}, "leader": {canvas.TextInk, canvas.Casing}, "outline of an inset's ground": {canvas.LesserInk, canvas.Casing},
			"hatch of unsure ground": {canvas.LineInk, canvas.Casing}, "outline of a sheet's region": {daychart.LevelInk, canvas.Paper}, "mark of a place": {canvas.TextInk, canvas.HaloInk},
			"edge of ground without data": {canvas.LesserInk, undatedLooks[NoData].Tone}, "bar of the scale over land": {canvas.LesserInk, canvas.HaloInk},
		} {
			if got := best(cased(as(pair[0]), as(pair[1]), under)...); got < leastGraphic {
				t.Errorf("%s: %s has contrast %.2f, want %.0f", name, what, got, leastGraphic)
			}
		}
	})
}

// Land is told from water by the coast where their shades are alike: the
// earliest week in grey is nearly as light as water. Where a territory has
// only outlines, those of its regions do it.
func TestCoastParts(t *testing.T) {
	eachGround(func(name string, as func(color.NRGBA) color.NRGBA, l canvas.Look) {
		under, water := as(l.Tone), as(ground)
		for what, line := range map[string]color.NRGBA{"coast": as(canvas.LineInk), "outline of a region": eye.Over(as(canvas.FineInk), eye.Over(as(borderGlow), water))} {
			if got := eye.Contrast(line, water); got < leastGraphic {
				t.Errorf("%s on water has contrast %.2f", what, got)
			}
			if got := max(eye.Contrast(under, water), eye.Contrast(line, under)); what == "coast" && got < leastGraphic {
				t.Errorf("%s: neither %s nor water has contrast 3 to it, but %.2f", name, what, got)
			}
		}
	})
}

// Every hatch and dot shows on its own ground: what tells ground without a
// week apart, neighbouring statuses, and neighbouring classes in grey.
func TestHatchesShow(t *testing.T) {
	hatched := 0
	eachGround(func(name string, as func(color.NRGBA) color.NRGBA, l canvas.Look) {
		if l.Pattern == canvas.Plain {
			return
		}
		hatched++
		if got := eye.Contrast(as(canvas.TextureInk(l.Tone)), as(l.Tone)); got < leastGraphic {
			t.Errorf("%s: its pattern has contrast %.2f", name, got)
		}
	})
	if hatched < 100 {
		t.Errorf("only %d ramp have a pattern", hatched)
	}
}

// Neighbours on a map have 3:1 by their shades, or patterns that differ (whose
// lines have it, by TestHatchesShow).
//
// Ramps in colour are the exception, and must be: from black to white there is
// 21:1, so that n shades in order have 21^(1/(n−1)) to each other at most,
// less than 3:1 from four on, and on three only near black and white, which
// lines and names need. Lines between the classes would not do either:
// some 18 bands a few pixels wide would be lines for the most part. Colour then
// is not the only carrier (SC 1.4.1): lightness falls in the order of the
// weeks, so that place on the map tells it as well, neighbours keep apart for
// any sight (TestPaletteStaysApart, TestAmountsStayApart), the legend shows all
// of them side by side with their dates (TestLegendHoldsTheMap), the same map
// is drawn with patterns (Grey), and tables give every region's dates. Changes
// in grey spend their patterns on the side, earlier or later, and are ramps of
// at most four tones on each, ΔE 11 or more apart (TestGreyChanges).
func TestNeighboursStayApart(t *testing.T) {
	if most := math.Pow(21, 1.0/3); most >= leastGraphic {
		t.Errorf("four shades can have %.2f to each other", most)
	}
	for how, as := range shownAs {
		ramps := classLooks(how == "grey")
		ramps["statuses"] = looks.Statuses[:]
		for kind, ramp := range ramps {
			if kind != "statuses" && len(ramp) > 2 && (how == "colour" || strings.HasSuffix(kind, "changes")) {
				continue
			}
			for i := 1; i < len(ramp); i++ {
				a, b := ramp[i-1], ramp[i]
				if a.Pattern == b.Pattern && eye.Contrast(as(a.Tone), as(b.Tone)) < leastGraphic {
					t.Errorf("%s, %s: %d and %d have contrast %.2f and no other patterns", how, kind, i-1, i, eye.Contrast(as(a.Tone), as(b.Tone)))
				}
			}
		}
	}
}

// Samples of the legend and the parts of strips stand out from paper by their
// shade, their pattern or their outline.
func TestSamplesShowOnPaper(t *testing.T) {
	for how, as := range shownAs {
		if got := eye.Contrast(eye.Over(as(canvas.FineInk), canvas.Paper), canvas.Paper); got < leastGraphic {
			t.Errorf("%s: the outline of samples has contrast %.2f on paper", how, got)
		}
		for s, l := range looks.Statuses[1:4] { // those that strips show, without outlines
			carrier := l.Tone
			if l.Pattern != canvas.Plain {
				carrier = canvas.TextureInk(l.Tone)
			}
			if got := eye.Contrast(as(carrier), canvas.Paper); got < leastGraphic {
				t.Errorf("%s: part %d of a strip has contrast %.2f on paper", how, s, got)
			}
		}
	}
}

// Text keeps 4.5:1 wherever it stands (WCAG 2.2, SC 1.4.3), lines of the map
// and of the legend 3:1 (SC 1.4.11).
func TestContrast(t *testing.T) {
	for name, c := range map[string]struct {
		a, b  color.NRGBA
		least float64
	}{
		"text on paper":         {canvas.TextInk, canvas.Paper, 7},
		"lesser text on paper":  {canvas.LesserInk, canvas.Paper, 4.5},
		"lesser text on ground": {canvas.LesserInk, ground, 4.5},
		"names on their halo":   {canvas.TextInk, canvas.HaloInk, 7},
		"coast against ground":  {canvas.LineInk, ground, 3},
	} {
		if got := eye.Contrast(c.a, c.b); got < c.least {
			t.Errorf("%s: contrast %.2f, want %.1f", name, got, c.least)
		}
	}
}

// Ground without a week is told apart by texture alone.
func TestUndatedLooksDiffer(t *testing.T) {
	textures := map[canvas.Pattern]Reason{}
	for r, l := range undatedLooks {
		if other, taken := textures[l.Pattern]; taken {
			t.Errorf("%v and %v share a texture", Reason(r), other)
		}
		textures[l.Pattern] = Reason(r)
	}
}

// No class of a quantity in grey has the texture of ground without a value.
func TestGreyAmountsHaveTexturesOfTheirOwn(t *testing.T) {
	for n := 2; n <= 7; n++ {
		for i, l := range looks.Amounts(n, true) {
			for reason, u := range undatedLooks {
				if l.Pattern != canvas.Plain && l.Pattern == u.Pattern {
					t.Errorf("%d classes: %d has the texture of %v", n, i, Reason(reason))
				}
			}
		}
	}
}
