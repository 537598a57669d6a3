package site_test

import (
	"fmt"
	"os"
	"testing"

	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/grid/units"
	"weekband/grid/worth"
	"weekband/regions/report"
	"weekband/render"
	"weekband/render/chart"
	"weekband/render/site"
	"weekband/render/wording"
)

// warming is a season of a region whose soil is a cosine year between 0 and
// 24 °C.
func warming() *report.Row {
	means := [12]units.Celsius{}
	for m := range means {
		means[m] = units.Celsius(12 - 12*[...]float64{0.97, 0.87, 0.5, 0, -0.5, -0.87, -0.97, -0.87, -0.5, 0, 0.5, 0.87}[m])
	}
	c := curve.FromMonths(&means)
	var year curve.Year
	c.Sample(&year)
	w := status.Window{ID: "spring", Title: "Spring weeds", Trigger: crossing.Trigger{Level: 12.8}, AheadDays: 21, Treatment: worth.Usual(worth.Medium)}
	r := report.Row{Window: &w, Name: "Wendrow", Dated: true, Soil: &year, Median: 110, P10: 105, P90: 116, Doubt: 11}
	r.Calendar = status.Calendar{AheadFrom: 70, OntimeFrom: 91, OntimeTo: 110, CatchupTo: 150}
	r.Shares.DatedShare = 1
	v := w.Value(&year, r.Calendar, r.Doubt, new(worth.Season))
	r.Value = &v
	return &r
}

// BenchmarkRegionPages writes pages of regions with two seasons, their charts
// and a dozen neighbours.
func BenchmarkRegionPages(b *testing.B) {
	e := edition()
	row := warming()
	second := *row.Window
	second.ID = "autumn"
	e.Windows = append(e.Windows, e.Windows[0])
	e.Windows[0].Window, e.Windows[1].Window = row.Window, &second
	for i := range 12 {
		r := e.Regions[0]
		r.ID, r.Name, r.Slug = fmt.Sprint("n", i), fmt.Sprint("Neighbour ", i), fmt.Sprint("neighbour-", i)
		e.Regions = append(e.Regions, r)
	}
	root, err := os.OpenRoot(b.TempDir())
	if err != nil {
		b.Fatal(err)
	}
	defer root.Close()
	w, err := site.NewWriter(root, e)
	if err != nil {
		b.Fatal(err)
	}
	l := wording.English()
	for b.Loop() {
		page := site.RegionPage{Region: &e.Regions[0], Locator: site.Locator{Width: 240, Height: 150, Overview: render.Overview{Path: "m1 1 2 0 0 2z"}}}
		for i := range 12 {
			page.Neighbours = append(page.Neighbours, site.Neighbour{Region: &e.Regions[i+2]})
			page.Locator.Near.Regions = append(page.Locator.Near.Regions, render.NearRegion{Region: i + 2, Path: "m1 1 20 0 0 20z"})
			page.Locator.Near.Labels = append(page.Locator.Near.Labels, render.NearLabel{X: 10, Y: 10, Size: 11, Lines: []string{"Neighbour"}})
		}
		for k := range e.Windows {
			r := *row
			r.Window = e.Windows[k].Window
			s := site.Season{Window: &e.Windows[k], Row: &r, Years: &site.Years{Early: season.Day(96), Late: 124}}
			for _, draw := range []func(*wording.Language, *report.Row) (chart.Chart, bool){
				func(l *wording.Language, r *report.Row) (chart.Chart, bool) { return chart.Soil(l, r, "soil") }, chart.Worth,
			} {
				if c, ok := draw(l, &r); ok {
					s.Charts = append(s.Charts, c)
				}
			}
			page.Seasons = append(page.Seasons, s)
		}
		if len(page.Seasons[1].Charts) != 2 {
			b.Fatal("a season without its charts")
		}
		if err := w.Region(&page); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "pages/s")
}
