package canvas

import (
	"image"
	"image/draw"
	"math"
	"testing"

	"golang.org/x/image/vector"

	"weekband/render/plane"
)

// star is a ring that crosses itself and every edge of an image of a size.
func star(width, height float64) []plane.Pixel {
	var ring []plane.Pixel
	for i := range 9 {
		sin, cos := math.Sincos(float64(i) * 2.2)
		ring = append(ring, plane.Pixel{X: width * (0.47 + 0.7*cos), Y: height * (0.52 + 0.6*sin)})
	}
	return ring
}

// A mask covers what the rasterizer of golang.org/x/image covers, to two of
// 255, on images so large that it sums up in floating point.
func TestMaskIsTheRasterizers(t *testing.T) {
	for _, size := range []image.Point{{X: 90, Y: 600}, {X: 700, Y: 530}} {
		var p plane.Path
		p.AddRing(star(float64(size.X), float64(size.Y))...)
		p.AddRing(plane.Polygon(plane.Pixel{X: 3, Y: 5.5}, 7.25, 8)...)
		got := NewBitmap(float64(size.X), float64(size.Y), 1).mask(&p)
		if got.Rect.Size() != size {
			t.Fatalf("a mask of %v, want %v", got.Rect, size)
		}
		r := vector.NewRasterizer(size.X, size.Y)
		for _, l := range p.Lines {
			r.MoveTo(float32(l.Points[0].X), float32(l.Points[0].Y))
			for _, q := range l.Points[1:] {
				r.LineTo(float32(q.X), float32(q.Y))
			}
			r.ClosePath()
		}
		want := image.NewAlpha(got.Rect)
		r.DrawOp = draw.Src
		r.Draw(want, want.Rect, image.Opaque, image.Point{})
		worst := 0
		for i, a := range want.Pix {
			worst = max(worst, int(a)-int(got.Pix[i]), int(got.Pix[i])-int(a))
		}
		if worst > 2 {
			t.Errorf("%v: %d of 255 apart", size, worst)
		}
	}
}

// By hand: a box from 1¼ to 2½ across and ½ to 2 down; a triangle under the
// diagonal of one pixel; what lies left of the image and above it.
func TestMaskByHand(t *testing.T) {
	box := func(left, top, right, bottom float64) *plane.Path {
		var p plane.Path
		p.AddRect(plane.Rect{Left: left, Top: top, Right: right, Bottom: bottom})
		return &p
	}
	var half plane.Path
	half.AddRing(plane.Pixel{X: 0, Y: 0}, plane.Pixel{X: 1, Y: 1}, plane.Pixel{X: 0, Y: 1})
	for name, c := range map[string]struct {
		path *plane.Path
		want []uint8
	}{
		"box":      {box(1.25, 0.5, 2.5, 2), []uint8{96, 64, 192, 128}},
		"triangle": {&half, []uint8{128}},
		"corner":   {box(-5, -4, 0.5, 1), []uint8{128}},
	} {
		got := NewBitmap(3, 2, 1).mask(c.path)
		if string(got.Pix) != string(c.want) {
			t.Errorf("%s: %v over %v, want %v", name, got.Pix, got.Rect, c.want)
		}
	}
}
