package press

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"testing"

	"weekband/render/canvas"
	"weekband/render/plane"
)

// Few colours stay exactly, and those to keep; of many none moves far.
func TestReduce(t *testing.T) {
	im := image.NewRGBA(image.Rect(0, 0, 300, 200))
	shade := func(x, y int) color.RGBA {
		if y < 150 {
			return color.RGBA{R: uint8(x / 100 * 90), G: 40, B: 200, A: 255}
		}
		return color.RGBA{R: uint8(x), G: uint8(3 * y), B: uint8(x + y), A: 255}
	}
	for y := range 200 {
		for x := range 300 {
			im.Set(x, y, shade(x, y))
		}
	}
	three := image.NewRGBA(image.Rect(0, 0, 300, 150))
	copy(three.Pix, im.Pix)
	reduced := func(im *image.RGBA, keep map[rgb]bool) (*image.Paletted, reduction) {
		p := newPainting(im)
		if !bytes.Equal(p.Image().Pix, im.Pix) {
			t.Fatal("a painting is not what was painted")
		}
		r := reduce([]*Painting{p}, paletteSize, keep)
		return &image.Paletted{Pix: p.indexes(r.index), Stride: p.size.X, Rect: im.Rect, Palette: r.palette}, r
	}
	if few, r := reduced(three, nil); r.moved > 0 || len(few.Palette) != 3 {
		t.Errorf("three colours became %d, moved by %v", len(few.Palette), r.moved)
	}
	rare := shade(7, 160) // one pixel
	out, r := reduced(im, map[rgb]bool{rgbOf(color.NRGBA(rare)): true})
	if r.moved > mostMoved {
		t.Fatalf("a colour moved by %v", r.moved)
	}
	for y := range 200 {
		for x := range 300 {
			got, want := out.At(x, y).(color.RGBA), shade(x, y)
			off := func(a, b uint8) int { return max(int(a)-int(b), int(b)-int(a)) }
			far := max(off(got.R, want.R), off(got.G, want.G), off(got.B, want.B))
			if far > mostMoved+1 || (y < 150 || want == rare) && far > 0 {
				t.Fatalf("pixel %d, %d of %v became %v", x, y, want, got)
			}
		}
	}
}

// A page of more colours than a palette can stand for keeps them all.
func TestTooManyColors(t *testing.T) {
	im := image.NewRGBA(image.Rect(0, 0, 256, 128))
	for y := range 128 {
		for x := range 256 {
			im.SetRGBA(x, y, color.RGBA{R: uint8(x), G: uint8(2 * y), B: uint8(x * y), A: 255})
		}
	}
	p := newPainting(im)
	r := reduce([]*Painting{p}, paletteSize, nil)
	if r.moved <= mostMoved {
		t.Fatalf("colours all over the place moved by %v only", r.moved)
	}
	var b bytes.Buffer
	page := Page{Layout: Layout{Width: 256, Height: 128}, steps: []func(canvas.Canvas){func(c canvas.Canvas) {
		for y := range 128 {
			for x := range 256 {
				c.Fill(plane.RectPath(plane.Rect{Left: float64(x), Right: float64(x + 1), Top: float64(y), Bottom: float64(y + 1)}), color.NRGBA(im.RGBAAt(x, y)))
			}
		}
	}}}
	if err := page.PNG(&b, 1); err != nil {
		t.Fatal(err)
	}
	got, err := png.Decode(&b)
	if err != nil {
		t.Fatal(err)
	}
	for y := range 128 {
		for x := range 256 {
			if c := color.RGBAModel.Convert(got.At(x, y)); c != im.RGBAAt(x, y) {
				t.Fatalf("pixel %d, %d: %v became %v", x, y, im.RGBAAt(x, y), c)
			}
		}
	}
}
