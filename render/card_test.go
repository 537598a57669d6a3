package render_test

import (
	"bytes"
	"fmt"
	"image/png"
	"strings"
	"testing"

	"weekband/grid"
	"weekband/grid/status"
	"weekband/render"
	"weekband/render/caution"
	"weekband/render/plane"
	"weekband/render/press"
)

func ExampleAtlas_Card() {
	t := merrow.territory()
	card := render.Card{
		Title: "Merrow Vale", Subtitle: "Spring soil warm-up. Edition 2027.", Caution: caution.Short, Region: &t.Regions[5],
		Windows: []render.CardWindow{{Title: "Summer annual weeds", Calendar: status.Calendar{AheadFrom: 60, OntimeFrom: 84, OntimeTo: 106, CatchupTo: 150}}},
	}
	page, err := must(render.NewAtlas(t, 900)).Card(card)
	if err != nil {
		fmt.Println(err)
		return
	}
	var out bytes.Buffer
	if err := page.PNG(&out, 1); err != nil {
		fmt.Println(err)
		return
	}
	size, _ := png.DecodeConfig(&out)
	fmt.Println(size.Width, size.Height, strings.Contains(text(page.Layout), "Mar 25–Apr 15"))
	// Output: 1200 630 true
}

// cardWindows are windows of one to three: in spring, in late summer, and one
// over New Year.
func cardWindows(n int) []render.CardWindow {
	return []render.CardWindow{
		{Title: "Summer annual weeds, spring germination", Calendar: status.Calendar{AheadFrom: 60, OntimeFrom: 84, OntimeTo: 106, CatchupTo: 150}},
		{Title: "Winter annual weeds, late-summer germination", Calendar: status.Calendar{AheadFrom: 215, OntimeFrom: 236, OntimeTo: 258, CatchupTo: 300}},
		{Title: "Perennial weeds of mild winters", Calendar: status.Calendar{AheadFrom: -20, OntimeFrom: 3, OntimeTo: 40, CatchupTo: 80}},
	}[:n]
}

// cards are cards of all kinds.
func cards() map[string]*press.Page {
	const sub = "Spring soil warm-up, Merrow Vale and the islands. Edition 2027."
	wide, tall := merrow.spread(), skerry.territory()
	m := overFar(merrow.bandMap(9))
	long := wide.Regions[5]
	none := render.CardWindow{Title: "Winter annual weeds, late-summer germination", Words: "hovers near the threshold: no week can be told"}
	out := map[string]*press.Page{}
	for name, c := range map[string]struct {
		t    render.Territory
		card render.Card
	}{
		"one window":    {tall, render.Card{Title: tall.Regions[3].Name, Region: &tall.Regions[3], Windows: cardWindows(1)}},
		"two windows":   {wide, render.Card{Title: wide.Regions[8].Name, Region: &wide.Regions[8], Windows: cardWindows(2)}},
		"three windows": {wide, render.Card{Title: "The Most Honourable Hundred of Great and Little Snoring under Wychwood and Overleigh by the Water", Region: &long, Windows: cardWindows(3)}},
		"one undated":   {tall, render.Card{Title: "Wrack", Region: &tall.Regions[13], Windows: append(cardWindows(1), none)}},
		"undated":       {wide, render.Card{Title: "Nordøyer", Region: &wide.Insets[1].Regions[0], Windows: []render.CardWindow{none}}},
		"long word":     {wide, render.Card{Title: strings.Repeat("Overleigh", 12), Region: &long, Windows: cardWindows(2)}},
		"edition":       {wide, render.Card{Title: "Spring soil warm-up, Merrow Vale and the islands", Map: &m}},
		"long caution":  {tall, render.Card{Title: "Spring soil warm-up", Caution: caution.Short + " " + caution.Short[:90]}},
		"plain edition": {tall, render.Card{Title: "Spring soil warm-up"}},
	} {
		if c.card.Subtitle = sub; c.card.Caution == "" {
			c.card.Caution = caution.Short
		}
		out[name] = must(must(render.NewAtlas(c.t, 900)).Card(c.card)).Page
	}
	return out
}

// Nothing leaves a card or covers another thing on it, all can be read, and
// none weighs much.
func TestCards(t *testing.T) {
	for name, p := range cards() {
		page := plane.Rect{Right: render.CardWidth, Bottom: render.CardHeight}
		l := p.Layout
		if !l.Frame.Within(page) || l.Width != render.CardWidth || l.Height != render.CardHeight {
			t.Errorf("%s: %g by %g with the map %v", name, l.Width, l.Height, l.Frame)
		}
		for i, b := range l.Boxes {
			if !b.Within(page.Grow(-10)) || b.Overlaps(l.Frame) {
				t.Errorf("%s: %q at %v leaves the card or covers its map %v", name, b.Text, b.Rect, l.Frame)
			}
			for _, o := range l.Boxes[:i] {
				if tight := b.Rect.Grow(-2); tight.Overlaps(o.Rect) && o.Text != b.Text {
					t.Errorf("%s: %q covers %q", name, b.Text, o.Text)
				}
			}
		}
		for _, in := range l.Insets {
			if !in.Within(page.Grow(-20)) {
				t.Errorf("%s: the inset %v leaves the card", name, in)
			}
		}
		if !strings.Contains(text(l), "product label is the law") {
			t.Errorf("%s: no caution", name)
		}
		for _, seen := range render.Legible(p) {
			if seen.Contrast < 4.5 || seen.Size < 14 {
				t.Errorf("%s: %q of %.0f px has a contrast of %.1f", name, seen.Text, seen.Size, seen.Contrast)
			}
		}
		var out bytes.Buffer
		if err := p.PNG(&out, 1); err != nil {
			t.Fatal(err)
		}
		if t.Logf("%s: %d bytes", name, out.Len()); out.Len() > 60_000 {
			t.Errorf("%s takes %d bytes, want 60,000", name, out.Len())
		}
	}
}

// The region is marked on the card's map, a tiny one by a ring; on time is
// painted in its strip, from its first day to its last.
func TestCardMarksRegionAndWeeks(t *testing.T) {
	terr := merrow.territory()
	terr.Regions = append(terr.Regions, render.Region{Name: "Speck", Shape: boxed(grid.Box{West: -30.02, South: 45, East: -30, North: 45.02}).Regions[0].Shape})
	a := must(render.NewAtlas(terr, 900))
	tone := render.StatusTone(status.OnTime)
	for _, i := range []int{5, len(terr.Regions) - 1} {
		p := must(a.Card(render.Card{Title: "x", Caution: "y", Region: &terr.Regions[i], Windows: cardWindows(1)}))
		im := opaque(must(p.Paint(1)).Image())
		if n := render.AreaOf(im, shownIn(p.Layout.Frame, 1), tone, 2); n < 150 {
			t.Errorf("%s: %d pixels are marked on the map", terr.Regions[i].Name, n)
		}
		// The strip runs from 56 to 1144 over 365 days; its bottom lies above the months.
		const perDay = 1088 / 365.
		y := 0.0
		for _, b := range p.Layout.Boxes {
			if b.Kind == press.AxisText && b.Text == "Jan" {
				y = b.Top - 8
			}
		}
		first, last := -1, -1
		for x := 56; x < 1144; x++ {
			if q := im.NRGBAAt(x, int(y)); q == tone {
				if first < 0 {
					first = x
				}
				last = x
			}
		}
		if want := 56 + 83*perDay; float64(first) < want-1.5 || float64(first) > want+1.5 {
			t.Errorf("on time begins at %d px, want %.1f", first, want)
		}
		if want := 56 + 105*perDay; float64(last) < want-2.5 || float64(last) > want+1.5 {
			t.Errorf("on time ends at %d px, want %.1f", last, want)
		}
	}
}

func TestCardErrors(t *testing.T) {
	terr := merrow.territory()
	a := must(render.NewAtlas(terr, 900))
	falling := merrow.bandMap(3)
	falling.Bands[0], falling.Bands[2] = falling.Bands[2], falling.Bands[0]
	for want, c := range map[string]render.Card{
		"0 windows; want one to 3": {Title: "Merrow Vale", Region: &terr.Regions[5]},
		"4 windows; want one to 3": {Title: "Merrow Vale", Region: &terr.Regions[5], Windows: append(cardWindows(3), cardWindows(1)...)},
		"want none":                {Title: "Spring", Windows: cardWindows(1)},
		"bands must rise":          {Title: "Spring", Map: &falling},
		"give a shorter one":       {Title: "Spring", Caution: strings.Repeat(caution.Short, 3)},
	} {
		if _, err := a.Card(c); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("got %v, want %q", err, want)
		}
	}
}

func BenchmarkCard(b *testing.B) {
	terr, all := counties(b)
	a := must(render.NewAtlas(terr, 900))
	i := 0
	for b.Loop() {
		r := all[i%len(all)]
		i += 101
		p := must(a.Card(render.Card{Title: r.Name, Subtitle: "Spring soil warm-up. Edition 2027.", Caution: caution.Short, Region: &r, Windows: cardWindows(2)}))
		if err := p.PNG(&bytes.Buffer{}, 1); err != nil {
			b.Fatal(err)
		}
	}
}
