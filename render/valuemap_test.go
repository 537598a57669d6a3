package render_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"weekband/render"
	"weekband/render/looks"
	"weekband/render/press"
)

// valueMap shades the island with n classes of one day each from 3 on.
func (s island) valueMap(n int, diverging bool) render.ValueMap {
	bands := s.bandMap(n)
	m := render.ValueMap{Caption: bands.Caption, Heading: "Expected error, days", Undated: bands.Undated, Diverging: diverging}
	for i, b := range bands.Bands {
		from := float64(3 + i)
		m.Classes = append(m.Classes, render.ValueClass{From: from, To: from + 1, Label: fmt.Sprintf("%g–%g", from, from+1), Shape: b.Shape, Share: b.Share})
	}
	return m
}

// Legends hold every class in order, at any width, and nothing overlaps.
func TestValueMapLayout(t *testing.T) {
	for name, c := range map[string]struct {
		island island
		m      render.ValueMap
	}{
		"wide": {merrow, merrow.valueMap(7, false)}, "tall": {skerry, skerry.valueMap(7, false)}, "changes": {merrow, merrow.valueMap(5, true)},
		"one class": {merrow, merrow.valueMap(1, true)}, "nothing": {merrow, render.ValueMap{}},
	} {
		for _, width := range []int{360, 480, 900, 1200, 2400} {
			terr := c.island.territory()
			if width < 480 {
				terr = c.island.silent() // there is no room for names nor for the scale's words
			}
			a := must(render.NewAtlas(terr, width))
			l := must(a.Values(c.m)).Layout
			if width >= 480 {
				checkLayout(t, fmt.Sprintf("%s at %d px", name, width), l)
			}
			var texts []string
			for _, b := range l.Boxes {
				if b.Kind == press.LegendText {
					texts = append(texts, b.Text)
				}
			}
			legend := strings.Join(texts, " ")
			at := 0
			for _, class := range c.m.Classes {
				found := strings.Index(legend[at:], class.Label)
				if found < 0 {
					t.Fatalf("%s at %d px: class %s is not in the legend, or out of order: %q", name, width, class.Label, legend)
				}
				at += found
			}
			if len(c.m.Classes) > 0 && !strings.Contains(legend, "with share of the area") {
				t.Errorf("%s at %d px: the legend does not say what the bars are: %q", name, width, legend)
			}
		}
	}
}

// On a narrow page many weeks stand under each other, and no word of them is
// broken.
func TestCrowdedLegend(t *testing.T) {
	for _, width := range []int{360, 480} {
		a := must(render.NewAtlas(merrow.silent(), width))
		m := merrow.bandMap(14)
		for i := range m.Bands {
			m.Bands[i].Label = strings.ReplaceAll(m.Bands[i].Label, " ", "\u00a0")
		}
		l := must(a.Bands(m)).Layout
		for _, band := range m.Bands {
			whole := false
			for _, b := range l.Boxes {
				whole = whole || b.Kind == press.LegendText && b.Text == band.Label
			}
			if !whole {
				t.Errorf("at %d px the legend does not hold %q in one piece", width, band.Label)
			}
		}
	}
}

// The middle of each class has its colour, and a diverging map those of
// changes.
func TestValuesHaveTheirColours(t *testing.T) {
	unraced(t)
	a := must(render.NewAtlas(merrow.silent(), 900))
	const n = 5
	for _, diverging := range []bool{false, true} {
		palette := looks.NewAmounts(n)
		if diverging {
			palette = looks.NewChanges(n)
		}
		page := must(a.Values(merrow.valueMap(n, diverging)))
		im := picture(t, page.Page, 2)
		for i := range n {
			v := alwaysTo + (1-alwaysTo)*(float64(i)+0.5)/n
			for _, u := range []float64{0.08, 0.6, 0.93} {
				wave := edge(v)[int(u*60)][1]
				if got := merrow.ground(page, im, 2, u, wave); !near(got, palette[i]) {
					t.Errorf("diverging %v, class %d at %.2f, %.2f is %v, want %v", diverging, i, u, wave, got, palette[i])
				}
			}
		}
	}
}

// A week has one colour on maps that show different stretches of one scale.
func TestOneScale(t *testing.T) {
	unraced(t)
	a := must(render.NewAtlas(merrow.silent(), 900))
	whole, part := merrow.bandMap(10), merrow.bandMap(10)
	part.Bands, part.Before, part.After = part.Bands[2:7], 2, 3
	for _, grey := range []bool{false, true} {
		whole.Grey, part.Grey = grey, grey
		first, second := must(a.Bands(whole)), must(a.Bands(part))
		one, two := picture(t, first.Page, 2), picture(t, second.Page, 2)
		for i := 2; i < 7; i++ {
			v := alwaysTo + (1-alwaysTo)*(float64(i)+0.5)/10
			v = edge(v)[int(0.6*60)][1]
			if x, y := merrow.ground(first, one, 2, 0.6, v), merrow.ground(second, two, 2, 0.6, v); x != y {
				t.Errorf("grey %v: band %d is %v on one map and %v on the other", grey, i, x, y)
			}
		}
	}
	part.Before = -1
	if _, err := a.Bands(part); err == nil || !strings.Contains(err.Error(), "-1 bands before") {
		t.Errorf("a negative number of bands gives %v", err)
	}
}

func TestValueMapIsReproducible(t *testing.T) {
	for _, grey := range []bool{false, true} {
		var first []byte
		for range 2 {
			m := merrow.valueMap(5, true)
			m.Grey = grey
			a := must(render.NewAtlas(merrow.territory(), 600))
			got := encode(t, must(a.Values(m)).Page, 1)
			if first != nil && !bytes.Equal(first, got) {
				t.Errorf("grey %v: the same map gives other bytes", grey)
			}
			first = got
		}
	}
}

func TestValuesRefuse(t *testing.T) {
	a := must(render.NewAtlas(merrow.silent(), 480))
	shape := orb.MultiPolygon{{merrow.rect(0, 0, 1, 1)}}
	for name, c := range map[string]struct {
		m    render.ValueMap
		want string
	}{
		"falling":   {render.ValueMap{Classes: []render.ValueClass{{From: 2, To: 3, Label: "2–3", Shape: shape}, {From: 1, To: 2, Label: "1–2"}}}, `class "1–2" begins at 1`},
		"no middle": {render.ValueMap{Diverging: true, Classes: []render.ValueClass{{From: -1, To: 0}, {From: 0, To: 1}}}, "have no middle"},
	} {
		if _, err := a.Values(c.m); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", name, err, c.want)
		}
	}
}
