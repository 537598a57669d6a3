package render_test

import (
	"io"
	"math"
	"testing"

	"github.com/paulmach/orb"

	"weekband/render"
	"weekband/render/press"
)

// dense is fifty regions of twenty thousand corners each, in ten columns and
// five rows.
func dense() render.Territory {
	var t render.Territory
	for k := range 50 {
		west, south := -30+float64(k%10), 40+float64(k/10)
		var ring orb.Ring
		for i := range 20_000 {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / 20_000)
			r := 0.45 + 0.02*math.Sin(float64(i)/30)
			ring = append(ring, orb.Point{west + r*cos, south + r*sin})
		}
		t.Regions = append(t.Regions, render.Region{Name: "Region", Shape: orb.MultiPolygon{{append(ring, ring[0])}}})
	}
	return t
}

func BenchmarkMap1600(b *testing.B) {
	t := dense()
	m := merrow.bandMap(12)
	for b.Loop() {
		a := must(render.NewAtlas(t, 1600))
		if err := must(a.Bands(m)).PNG(io.Discard, 1); err != nil {
			b.Fatal(err)
		}
	}
}

func Benchmark30Frames900(b *testing.B) {
	t := dense()
	for b.Loop() {
		a := must(render.NewAtlas(t, 900))
		for i := range 30 {
			if err := a.Status(merrow.frame(i, 30)).PNG(io.Discard, 1); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// A map of a country of many regions, painted and packed at two pixels to each
// of layout; most of it is strokes, the ground and the deflating.
func BenchmarkPaint(b *testing.B) {
	page := must(must(render.NewAtlas(dense(), 1200)).Bands(merrow.bandMap(12)))
	pixels := 4 * page.Layout.Width * page.Layout.Height
	b.Run("paint", func(b *testing.B) {
		for b.Loop() {
			must(page.Paint(2))
		}
		b.ReportMetric(float64(b.N)*pixels/b.Elapsed().Seconds(), "pixels/s")
	})
	b.Run("encode", func(b *testing.B) {
		for b.Loop() {
			if err := page.PNG(io.Discard, 2); err != nil {
				b.Fatal(err)
			}
		}
		b.ReportMetric(float64(b.N)*pixels/b.Elapsed().Seconds(), "pixels/s")
	})
}

// Thirty weeks on a sheet.
func BenchmarkSheet(b *testing.B) {
	a := must(render.NewAtlas(dense(), 1200))
	page := a.Sheet(merrow.bandMap(1).Caption, merrow.frames(30))
	for b.Loop() {
		if err := page.PNG(io.Discard, 2); err != nil {
			b.Fatal(err)
		}
	}
}

// One page as SVG and as PDF.
func BenchmarkVectors(b *testing.B) {
	page := must(must(render.NewAtlas(merrow.territory(), 1200)).Bands(merrow.bandMap(12)))
	for name, write := range map[string]func() error{
		"SVG": func() error { return page.SVG(io.Discard, described) },
		"PDF": func() error { return page.PDF(io.Discard, press.Letter, described) },
	} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if err := write(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
