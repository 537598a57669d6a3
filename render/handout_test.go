package render_test

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"weekband/grid"
	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/render"
	"weekband/render/caution"
	"weekband/render/daychart"
	"weekband/render/plane"
	"weekband/render/press"
)

func handoutOf(i island, rows int) (*render.Atlas, render.Handout) {
	a := must(render.NewAtlas(i.territory(), 900))
	h := render.Handout{
		Map: i.bandMap(9), Guide: []string{"Find your place.", "Aim for on time.", "Check your own soil."},
		Sure: "The typical week is expected to be off by about 5 days.", Address: "https://soil.example/weeks",
	}
	h.Map.Cautions = caution.All[:]
	for k := range rows {
		from := season.Day(20 + 70*float64(k)/float64(rows))
		h.Rows = append(h.Rows, daychart.CalendarRow{Name: fmt.Sprintf("Region %d of the Hollow Isles", k+1), Calendar: status.Calendar{AheadFrom: from, OntimeFrom: from + 21, OntimeTo: from + 50, CatchupTo: from + 95}})
	}
	if rows > 2 {
		h.Rows[2].Name, h.Rows[2].Part = "Region with a name that is longer than there is room for", "84%"
	}
	if rows > 1 {
		h.Rows[1] = daychart.CalendarRow{Name: "The Gannays", Words: "always above the threshold: no week stands out"}
	}
	return a, h
}

// A handout fits its page whatever it holds, with all texts apart from each
// other.
func TestHandoutFitsItsPage(t *testing.T) {
	for _, rows := range []int{0, 1, 9, 14, 15, 49, 60, 61, 3100} {
		for _, i := range []island{merrow, skerry} {
			a, h := handoutOf(i, rows)
			p, err := a.Handout(h)
			if err != nil {
				t.Fatalf("%d rows: %v", rows, err)
			}
			checkHandout(t, fmt.Sprintf("%d rows", rows), p.Page)
			checkCautions(t, fmt.Sprintf("%d rows", rows), p.Page)
			strips := 0
			for _, b := range p.Layout.Boxes {
				if b.Kind == press.LegendText && (strings.HasPrefix(b.Text, "Region ") || b.Text == "The Gannays") {
					strips++
				}
			}
			if strips != min(rows, render.MostRows) {
				t.Errorf("%d rows: %d strips", rows, strips)
			}
		}
	}
}

func checkHandout(t *testing.T, name string, p *press.Page) {
	t.Helper()
	page := plane.Rect{Right: p.Layout.Width, Bottom: p.Layout.Height}
	if p.Layout.Width != 900 || p.Layout.Height != 1200 {
		t.Errorf("%s: %g × %g", name, p.Layout.Width, p.Layout.Height)
	}
	for i, b := range p.Layout.Boxes {
		if !b.Within(page) {
			t.Errorf("%s: %q at %v leaves the page", name, b.Text, b.Rect)
		}
		for _, o := range p.Layout.Boxes[:i] {
			if letters(b).Overlaps(letters(o)) {
				t.Errorf("%s: %q at %v overlaps %q at %v", name, b.Text, b.Rect, o.Text, o.Rect)
			}
		}
	}
}

// checkCautions compares the cautions on a page with all there are.
func checkCautions(t *testing.T, name string, p *press.Page) {
	t.Helper()
	var footer strings.Builder
	for _, b := range p.Layout.Boxes {
		if b.Kind == press.FooterText {
			footer.WriteString(b.Text + " ")
		}
	}
	for _, c := range caution.All {
		if !strings.Contains(footer.String(), c) {
			t.Errorf("%s lacks %q", name, c)
		}
	}
}

// The share of a region's ground stands beside its name however long that is.
func TestSharesBesideNamesAreNotCut(t *testing.T) {
	a, h := handoutOf(merrow, 30)
	found := 0
	for _, b := range must(a.Handout(h)).Layout.Boxes {
		if strings.HasPrefix(b.Text, "Region with a name") {
			found++
			if !strings.HasSuffix(b.Text, "… (84%)") || b.Rect.Width() > 0.2*900 {
				t.Errorf("%q, %g px wide", b.Text, b.Rect.Width())
			}
		}
	}
	if found != 1 {
		t.Errorf("%d strips of the region", found)
	}
}

// regionSheetOf returns a region's handout with twelve facts and all cautions.
func regionSheetOf(m render.BandMap) render.RegionSheet {
	days := make([]float64, 365)
	for i := range days {
		days[i] = 11 - 13*math.Cos(2*math.Pi*float64(i-20)/365)
	}
	sheet := render.RegionSheet{
		Caption: m.Caption, Map: m, Shape: merrow.territory().Regions[0].Shape, Soil: daychart.SoilYear{Days: days, Spread: 3, Threshold: 115.0 / 9, Calendar: status.Calendar{AheadFrom: 60, OntimeFrom: 81, OntimeTo: 118, CatchupTo: 160}},
		Chart: "Soil at 4 in in a typical year", Guide: []string{"Read it.", "So.", "And so."}, Sure: "Rather.",
	}
	sheet.Cautions = caution.All[:]
	for i := range 12 {
		sheet.Facts = append(sheet.Facts, render.Fact{Label: fmt.Sprintf("Label %d", i), Value: "Mar 12–18", Best: i == 0})
	}
	return sheet
}

func TestRegionSheetFitsItsPage(t *testing.T) {
	unraced(t)
	a := must(render.NewAtlas(merrow.territory(), 900))
	sheet := regionSheetOf(merrow.bandMap(9))
	for region := range a.Regions {
		for _, address := range []string{"", "https://soil.example/"} {
			sheet.Shape, sheet.Address, sheet.Grey = a.Regions[region].Shape, address, address == ""
			p, err := a.RegionSheet(sheet)
			if err != nil {
				t.Fatal(err)
			}
			checkHandout(t, fmt.Sprintf("region %d", region), p.Page)
			checkCautions(t, fmt.Sprintf("region %d", region), p.Page)
			var one, two bytes.Buffer
			again, err := a.RegionSheet(sheet)
			if err != nil || p.PNG(&one, 1) != nil || again.PNG(&two, 1) != nil || !bytes.Equal(one.Bytes(), two.Bytes()) {
				t.Errorf("region %d: the same sheet gives other bytes (%v)", region, err)
			}
		}
	}
	sheet.Shape = nil
	if _, err := a.RegionSheet(sheet); err == nil {
		t.Error("a region without a shape is drawn")
	}
	sheet.Shape, sheet.Soil.Days = a.Regions[0].Shape, sheet.Soil.Days[:364]
	if _, err := a.RegionSheet(sheet); err == nil {
		t.Error("a year of 364 days is drawn")
	}
}

// The region that a handout is for is outlined where it lies, in an inset too:
// two handouts that differ in nothing else differ there.
func TestRegionSheetOutlinesItsRegion(t *testing.T) {
	unraced(t)
	land := merrow.spread()
	a := must(render.NewAtlas(land, 900))
	sheet := regionSheetOf(merrow.bandMap(9))
	sheet.Shape = land.Regions[0].Shape
	first := pictureOf(t, must(a.RegionSheet(sheet)).Page)
	for name, shape := range map[string]orb.MultiPolygon{"main map": land.Regions[8].Shape, "inset": land.Insets[0].Regions[1].Shape} {
		sheet.Shape = shape
		page := must(a.RegionSheet(sheet))
		other := pictureOf(t, page.Page)
		vertex := shape[0][0][0]
		at, ok := page.Spot(grid.LonLat{Lon: vertex[0], Lat: vertex[1]})
		if !ok {
			t.Fatalf("%s: the region is shown nowhere", name)
		}
		changed := 0
		for x := int(at.X) - 3; x <= int(at.X)+3; x++ {
			for y := int(at.Y) - 3; y <= int(at.Y)+3; y++ {
				if first.At(x, y) != other.At(x, y) {
					changed++
				}
			}
		}
		if changed == 0 {
			t.Errorf("%s: nothing is drawn about %v, on the region's outline", name, at)
		}
	}
}

func pictureOf(t *testing.T, p *press.Page) image.Image {
	t.Helper()
	var b bytes.Buffer
	if err := p.PNG(&b, 1); err != nil {
		t.Fatal(err)
	}
	return must(png.Decode(&b))
}

func TestHandoutRefusals(t *testing.T) {
	a, h := handoutOf(merrow, 3)
	h.Address = "https://soil.example/" + strings.Repeat("x", 4000)
	if _, err := a.Handout(h); err == nil || !strings.Contains(err.Error(), "shorter") {
		t.Errorf("an endless address: %v", err)
	}
	h.Address, h.Sure = "", strings.Repeat("very unsure ", 600)
	if _, err := a.Handout(h); err == nil || !strings.Contains(err.Error(), "no room") {
		t.Errorf("endless words: %v", err)
	}
	other := must(render.NewAtlas(merrow.territory(), 1200))
	if _, err := other.Handout(render.Handout{Map: merrow.bandMap(3)}); err == nil {
		t.Error("another width is taken")
	}
}
