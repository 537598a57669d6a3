package render_test

import (
	"fmt"
	"image"
	"image/color"
	"math"
	"slices"
	"sync"
	"testing"

	"github.com/paulmach/orb"

	"weekband/grid"
	"weekband/render"
	"weekband/render/internal/eye"
	"weekband/render/plane"
	"weekband/render/press"
)

var everyPage = sync.OnceValue(readPages)

// readPages are the golden pages and others of their kinds: wide, tall, grey,
// and crowded.
func readPages() map[string]*press.Page {
	pages := map[string]*press.Page{}
	for name, g := range goldenPages() {
		pages["golden "+name] = g.page // at full scale
	}
	for _, i := range []island{merrow, skerry} {
		for _, rows := range []int{9, 60} {
			atlas, handout := handoutOf(i, rows)
			handout.Map.Grey = rows == 60
			pages[fmt.Sprintf("handout of %v, %d rows", i, rows)] = must(atlas.Handout(handout)).Page
		}
		wide := must(render.NewAtlas(i.territory(), 1200))
		pages[fmt.Sprintf("values of %v", i)] = must(wide.Values(i.valueMap(7, false))).Page
		pages[fmt.Sprintf("frame of %v", i)] = wide.Status(i.frame(4, 9)).Page
	}
	chart := agreement(40, 60, 130, 8)
	chart.Grey = true
	pages["grey chart"] = must(chart.Page(900))
	sheet := merrow.regionSheet()
	sheet.Grey = true
	pages["grey region sheet"] = must(must(render.NewAtlas(merrow.territory(), 900)).RegionSheet(sheet)).Page
	inland := must(render.NewAtlas(box(), 480))
	pages["inland"] = must(inland.Bands(merrow.bandMap(8))).Page
	return pages
}

// box is a territory that fills its frame, so that scale and week stand on
// land.
func box() render.Territory {
	at := grid.Box{West: -33, South: 43.4, East: -26, North: 47.2}
	ring := orb.Ring{{at.West, at.South}, {at.East, at.South}, {at.East, at.North}, {at.West, at.North}, {at.West, at.South}}
	return render.Territory{Regions: []render.Region{{Name: "Inland", Shape: orb.MultiPolygon{{ring}}}}}
}

// Every text of every kind of page has 4.5:1 to whatever is painted under it,
// or to its halo, which then is a pixel wide or more (WCAG 2.2, SC 1.4.3), and
// 11 px.
func TestEveryTextIsLegible(t *testing.T) {
	unraced(t)
	const leastHalo = 1.0
	for name, p := range everyPage() {
		texts := render.Legible(p)
		if len(texts) != len(p.Layout.Boxes) {
			t.Errorf("%s: %d texts drawn, %d in the layout", name, len(texts), len(p.Layout.Boxes))
		}
		for _, l := range texts {
			if l.Contrast < 4.5 || l.Size < 10.99 || l.Halo > 0 && l.Halo < leastHalo {
				t.Errorf("%s: %q of %.1f px has contrast %.2f, halo %.2f px", name, l.Text, l.Size, l.Contrast, l.Halo)
			}
		}
	}
}

// No text of any kind of page lies on another or leaves the page.
func TestNoTextLiesOnAnother(t *testing.T) {
	for name, p := range everyPage() {
		page := plane.Rect{Right: p.Layout.Width, Bottom: p.Layout.Height}
		for i, b := range p.Layout.Boxes {
			if !b.Within(page) {
				t.Errorf("%s: %q at %v leaves the page", name, b.Text, b.Rect)
			}
			for _, o := range p.Layout.Boxes[:i] {
				if letters(b).Overlaps(letters(o)) {
					t.Errorf("%s: %q at %v lies on %q at %v", name, b.Text, b.Rect, o.Text, o.Rect)
				}
			}
		}
	}
}

// shownIn is the part of an image inside a box of the layout.
func shownIn(r plane.Rect, scale float64) image.Rectangle {
	return image.Rect(int(math.Ceil(r.Left*scale)), int(math.Ceil(r.Top*scale)), int(r.Right*scale), int(r.Bottom*scale))
}

// Every shade of the legend is on the map and every shade of the map in the
// legend. A frame lists all statuses, that the frames of a series have one
// legend; its sheet shows them all. The map of a region's sheet or card only
// says where it lies and has none.
func TestLegendHoldsTheMap(t *testing.T) {
	for name, g := range goldenPages() {
		if name == "agreement-chart" || name == "region-sheet" || name == "card" {
			continue
		}
		im, frame, slack := g.paint(), shownIn(g.page.Layout.Frame, g.scale), 0
		if name == "relief-map" {
			slack = 16 // the veil
		}
		tones := render.LegendTones(g.page)
		for i, c := range tones {
			if n := render.AreaOf(im, frame, c, slack); n < 8 && name != "status-frame" {
				t.Errorf("%s: shade %d of the legend, %v, has %d pixels on the map", name, i, c, n)
			}
		}
		if slack > 0 {
			continue
		}
		known := append(render.Furniture(name == "grey-band-map"), tones...)
		for c, n := range flats(im, frame) {
			if n > frame.Dx()*frame.Dy()/1000 && !slices.Contains(known, c) {
				t.Errorf("%s: %d pixels of %v on the map, which is not in the legend", name, n, c)
			}
		}
	}
}

// flats counts the pixels by colour that have four neighbours of their own.
func flats(im *image.NRGBA, r image.Rectangle) map[color.NRGBA]int {
	out := map[color.NRGBA]int{}
	for y := r.Min.Y + 1; y < r.Max.Y-1; y++ {
		for x := r.Min.X + 1; x < r.Max.X-1; x++ {
			if !rim(im, x, y) {
				out[im.NRGBAAt(x, y)]++
			}
		}
	}
	return out
}

// Ground marked as less sure shows on every week, in colour and in grey: around
// the middle of each band pixels of 3:1 stand together that did not before.
func TestUnsureGroundShowsOnEveryWeek(t *testing.T) {
	unraced(t)
	const scale, around = 2, 7
	bareLand := merrow.silent()
	bareLand.Borders = []orb.LineString{} // none
	a := must(render.NewAtlas(bareLand, 480))
	for _, n := range []int{1, 5, 8, 12} {
		m := merrow.bandMap(n)
		m.Undated, m.Uncertain.Shape = nil, nil
		bare := must(a.Bands(m))
		m.Uncertain.Shape = orb.MultiPolygon{{merrow.rect(0.55, 0.05, 0.68, 0.99)}}
		marked := must(a.Bands(m))
		before, after := opaque(must(bare.Paint(scale)).Image()), opaque(must(marked.Paint(scale)).Image())
		for i := range n {
			at := merrow.at(0.61, alwaysTo+(1-alwaysTo)*(float64(i)+0.5)/float64(n))
			p := marked.Pixel(grid.LonLat{Lon: at[0], Lat: at[1]})
			r := image.Rect(-around, -around, around, around).Add(image.Pt(int(p.X*scale), int(p.Y*scale)))
			if b, a := widestContrast(before, r), widestContrast(after, r); b > 2 || a < 3 {
				t.Errorf("week %d of %d: contrast %.2f without the mark, %.2f with it", i, n, b, a)
			}
		}
	}
}

// widestContrast is that between the lightest and the darkest pixel.
func widestContrast(im *image.NRGBA, r image.Rectangle) float64 {
	light, dark := 1.0, 21.0
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			c := eye.Contrast(im.NRGBAAt(x, y), color.NRGBA{A: 255})
			light, dark = max(light, c), min(dark, c)
		}
	}
	return light / dark
}
