package render_test

import (
	"bytes"
	"fmt"
	"image/color"
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"weekband/grid"
	"weekband/regions"
	"weekband/render"
	"weekband/render/looks"
	"weekband/render/plane"
	"weekband/render/press"
)

// spread is the island with two island groups, one far to the south-east, one
// in the north, shown by themselves.
func (s island) spread() render.Territory {
	t := s.territory()
	far := func(title string, lon, lat float64, names ...string) render.Inset {
		i := render.Inset{Title: title}
		for k, name := range names {
			var ring orb.Ring
			for a := range 60 {
				sin, cos := math.Sincos(2 * math.Pi * float64(a) / 60)
				ring = append(ring, orb.Point{lon + float64(k) + 0.3*cos, lat + 0.2*float64(k%2) + (0.3+0.1*math.Sin(5*float64(k)))*sin})
			}
			i.Regions = append(i.Regions, render.Region{Name: name, Shape: orb.MultiPolygon{{append(ring, ring[0])}}})
		}
		return i
	}
	t.Insets = []render.Inset{far("Far Isles", -12, 31, "Ness", "Holm", "Skarra"), far("Nordøyer", -40, 71, "Nordøyer")}
	return t
}

// overFar puts the island groups into the first and the last band.
func overFar(m render.BandMap) render.BandMap {
	box := func(w, s, e, n float64) orb.Polygon {
		return orb.Polygon{{{w, s}, {e, s}, {e, n}, {w, n}, {w, s}}}
	}
	m.Bands[0].Shape = append(m.Bands[0].Shape, box(-13, 30, -8, 32))
	last := len(m.Bands) - 1
	m.Bands[last].Shape = append(m.Bands[last].Shape, box(-41, 70, -39, 72))
	return m
}

// checkInsets looks at the small maps: all on the page, apart from each other,
// from land and from every text but their own.
func checkInsets(t *testing.T, name string, p *render.Map, land []render.Region) {
	t.Helper()
	l := p.Layout
	for i, box := range l.Insets {
		if !box.Within(plane.Rect{Right: l.Width, Bottom: l.Height}) || box.Overlaps(l.Legend) {
			t.Errorf("%s: the inset %v leaves the page or covers the legend", name, box)
		}
		if box.Overlaps(l.Frame) && !box.Within(l.Frame) {
			t.Errorf("%s: the inset %v stands across the edge of the map %v", name, box, l.Frame)
		}
		for _, o := range l.Insets[:i] {
			if box.Overlaps(o) {
				t.Errorf("%s: insets %v and %v overlap", name, box, o)
			}
		}
		for _, b := range l.Boxes {
			if b.Overlaps(box) && !b.Within(box) {
				t.Errorf("%s: %q at %v stands across the edge of the inset %v", name, b.Text, b.Rect, box)
			}
			if b.Within(box) && (b.Kind == press.GraticuleLabel || b.Kind == press.ScaleLabel || b.Kind == press.WeekLabel) {
				t.Errorf("%s: the inset %v covers %q", name, box, b.Text)
			}
		}
		for _, r := range land {
			for _, polygon := range r.Shape {
				for _, q := range polygon[0] {
					if box.Contains(p.Pixel(grid.LonLat{Lon: q[0], Lat: q[1]})) {
						t.Fatalf("%s: the inset %v covers %s", name, box, r.Name)
					}
				}
			}
		}
	}
}

func TestInsets(t *testing.T) {
	for name, s := range map[string]island{"wide": merrow, "tall": skerry} {
		terr := s.spread()
		for _, width := range []int{360, 480, 900, 1200, 2400} {
			a := must(render.NewAtlas(terr, width))
			for kind, p := range map[string]*render.Map{"bands": must(a.Bands(overFar(s.bandMap(8)))), "status": a.Status(s.frame(4, 8))} {
				where := fmt.Sprintf("%s, %s at %d px", name, kind, width)
				checkLayout(t, where, p.Layout)
				checkInsets(t, where, p, terr.Regions)
				if len(p.Layout.Insets) != 2 {
					t.Errorf("%s: %d insets", where, len(p.Layout.Insets))
				}
				words := text(p.Layout)
				for _, want := range []string{"Far Isles", "Inset Far Isles: ", "Inset Nordøyer: Lambert", "Projection: "} {
					if !strings.Contains(words, want) {
						t.Errorf("%s: the page does not say %q", where, want)
					}
				}
				if got := strings.Count(words, "Skarra ") + dropped(p.Layout, "Skarra"); got != 1 {
					t.Errorf("%s: Skarra is named %d times", where, got)
				}
			}
		}
	}
}

// text returns all words of a page in order.
func text(l press.Layout) string {
	var b strings.Builder
	for _, box := range l.Boxes {
		b.WriteString(box.Text + " ")
	}
	return b.String()
}

func dropped(l press.Layout, name string) int {
	n := 0
	for _, d := range l.Dropped {
		if d == name {
			n++
		}
	}
	return n
}

// The ground of an inset is shaded in the colours of the main map, and nowhere
// else.
func TestInsetGround(t *testing.T) {
	terr := merrow.spread()
	terr.Places = nil
	for _, rs := range [][]render.Region{terr.Regions, terr.Insets[0].Regions, terr.Insets[1].Regions} {
		for i := range rs {
			rs[i].Name = ""
		}
	}
	const n = 8
	page := must(must(render.NewAtlas(terr, 900)).Bands(overFar(merrow.bandMap(n))))
	im := picture(t, page.Page, 1)
	palette := looks.NewPalette(n)
	count := func(box plane.Rect, c color.NRGBA) (n int) {
		for y := int(box.Top); y < int(box.Bottom); y++ {
			for x := int(box.Left); x < int(box.Right); x++ {
				if near(color.NRGBAModel.Convert(im.At(x, y)).(color.NRGBA), c) {
					n++
				}
			}
		}
		return n
	}
	for i, tone := range []color.NRGBA{palette[0], palette[n-1]} {
		box, other := page.Layout.Insets[i], page.Layout.Insets[1-i]
		if got := count(box, tone); float64(got) < 0.08*box.Width()*box.Height() {
			t.Errorf("inset %d has %d pixels of its band", i, got)
		}
		if got := count(other, tone); got > 60 { // the darkest is near that of letters
			t.Errorf("inset %d has %d pixels of the band of inset %d", 1-i, got, i)
		}
	}
}

// The sheet of weeks leaves insets out and says so.
func TestSheetWithoutInsets(t *testing.T) {
	a := must(render.NewAtlas(merrow.spread(), 900))
	l := a.Sheet(merrow.frame(0, 4).Caption, []render.StatusMap{merrow.frame(0, 4), merrow.frame(1, 4)}).Layout
	if words := text(l); len(l.Insets) > 0 || !strings.Contains(words, "Insets not shown here: Far Isles, Nordøyer.") {
		t.Errorf("%d insets on the sheet, which says %q", len(l.Insets), words)
	}
}

func TestInsetBytes(t *testing.T) {
	draw := func() []byte {
		return encode(t, must(must(render.NewAtlas(merrow.spread(), 900)).Bands(overFar(merrow.bandMap(8)))).Page, 1)
	}
	if !bytes.Equal(draw(), draw()) {
		t.Error("the same map gives other bytes")
	}
	terr := merrow.spread()
	terr.Insets[0].Insets = terr.Insets[1:]
	if _, err := render.NewAtlas(terr, 900); err == nil || !strings.Contains(err.Error(), `"Far Isles" has insets`) {
		t.Errorf("insets within insets: %v", err)
	}
	terr.Insets[0] = render.Inset{Title: "Nowhere"}
	if _, err := render.NewAtlas(terr, 900); err == nil || !strings.Contains(err.Error(), `inset "Nowhere"`) {
		t.Errorf("an inset of nothing: %v", err)
	}
}

// The contiguous states with the islands of the south taken out.
func TestInsetOfStates(t *testing.T) {
	set := stateSet(t)
	far, main, held := set.Apart(grid.Box{West: -83, South: 24.3, East: -79.8, North: 27})
	terr := outlined(main)
	inset := render.Inset{Title: "South Florida", Territory: outlined(far)}
	inset.Extent = held
	terr.Insets = []render.Inset{inset}
	for _, width := range []int{360, 900, 1200, 2400} {
		p := must(must(render.NewAtlas(terr, width)).Bands(latitudes()))
		where := fmt.Sprintf("states at %d px", width)
		checkLayout(t, where, p.Layout)
		checkInsets(t, where, p, terr.Regions)
		if !strings.Contains(text(p.Layout), "Inset South Florida: Albers") {
			t.Errorf("%s: the inset's projection is not named", where)
		}
	}
}

func outlined(set regions.Set) render.Territory {
	topology := set.Topology()
	terr := render.Territory{Borders: topology.Inner(), Coast: topology.Outer()}
	for _, r := range set.Regions {
		terr.Regions = append(terr.Regions, render.Region{Name: r.Name, Shape: r.Shape})
	}
	return terr
}
