package render_test

import (
	"bytes"
	"image"
	"math"
	"testing"

	"weekband/grid"
	"weekband/render"
	"weekband/render/plane"
)

// hilly is the island with an invented terrain: ranges of hills from edge to
// edge of its box, sea around.
func (s island) hilly() render.Territory {
	t := s.silent()
	g := must(grid.New(grid.Box{West: s.west - 2, South: s.south - 1, East: s.west + s.width + 2, North: s.south + s.height + 1}, 330, 620))
	t.Terrain = grid.NewRaster[float32](g)
	for row := range g.Rows() {
		for col := range g.Cols() {
			c := grid.Cell{Row: row, Col: col}
			p := g.Center(c)
			t.Terrain.Set(c, float32(1600+1500*math.Sin(3*p.Lon+p.Lat)*math.Cos(4*p.Lat)))
		}
	}
	return t
}

// With a terrain the ground of a band map changes, water, words and legend do
// not; grey maps and frames of a series stay as they are to the last byte.
func TestReliefOnLandOnly(t *testing.T) {
	unraced(t)
	rough := must(render.NewAtlas(merrow.hilly(), 900))
	bare := must(render.NewAtlas(merrow.silent(), 900))
	m := merrow.bandMap(8)
	page := must(rough.Bands(m))
	a, b := opaque(must(page.Paint(1)).Image()), opaque(must(must(bare.Bands(m)).Paint(1)).Image()) // before their palettes
	changed := 0
	for y := range a.Bounds().Dy() {
		for x := range a.Bounds().Dx() {
			d := apart(a, b, x, y)
			if d > 2 {
				changed++
			}
			if inside := page.Layout.Frame.Contains(plane.Pixel{X: float64(x), Y: float64(y)}); !inside && d > 0 {
				t.Fatalf("pixel %d, %d off the map differs by %d", x, y, d)
			}
		}
	}
	if f := page.Layout.Frame; float64(changed) < 0.2*f.Width()*f.Height() {
		t.Errorf("only %d pixels of the map are shaded", changed)
	}
	for _, at := range []struct{ u, v float64 }{{-0.06, 0.3}, {1.05, 0.3}, {0.5, -0.06}} { // the sea
		p := page.Pixel(grid.LonLat{Lon: merrow.west + at.u*merrow.width, Lat: merrow.south + at.v*merrow.height})
		if d := apart(a, b, int(p.X), int(p.Y)); d > 1 {
			t.Errorf("the sea at %v differs by %d", at, d)
		}
	}
	m.Grey = true
	if !bytes.Equal(encode(t, must(rough.Bands(m)).Page, 1), encode(t, must(bare.Bands(m)).Page, 1)) {
		t.Error("a grey map has a relief")
	}
	if !bytes.Equal(encode(t, rough.Status(merrow.frame(3, 8)).Page, 1), encode(t, bare.Status(merrow.frame(3, 8)).Page, 1)) {
		t.Error("a frame of a series has a relief")
	}
	again := must(render.NewAtlas(merrow.hilly(), 900))
	m.Grey = false
	if !bytes.Equal(encode(t, must(again.Bands(m)).Page, 2), encode(t, page.Page, 2)) {
		t.Error("the same map gives other bytes")
	}
}

// apart is how far the farthest channel of a pixel differs, of 255.
func apart(a, b image.Image, x, y int) int {
	r1, g1, b1, _ := a.At(x, y).RGBA()
	r2, g2, b2, _ := b.At(x, y).RGBA()
	off := func(a, b uint32) int { return int(max(a, b)-min(a, b)) >> 8 }
	return max(off(r1, r2), off(g1, g2), off(b1, b2))
}

func BenchmarkRelief(b *testing.B) {
	t := merrow.hilly()
	for b.Loop() {
		if _, err := must(render.NewAtlas(t, 1200)).Bands(merrow.bandMap(8)); err != nil {
			b.Fatal(err)
		}
	}
}
