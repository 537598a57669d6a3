package canvas

import (
	"bytes"
	"image"
	"image/color"
	"math"
	"testing"

	"weekband/render/plane"
)

var pencil = color.NRGBA{R: 10, G: 60, B: 200, A: 255}

// covered returns how many pixels a drawing covers, parts of pixels as parts.
func covered(b *Bitmap) float64 {
	sum := 0.0
	for i := 3; i < len(b.Painted().Pix); i += 4 {
		sum += float64(b.Painted().Pix[i]) / 255
	}
	return sum
}

// By hand: a line of length 8 and width 2 covers two rows of eight pixels, and
// a half disc of radius 1 at either end; a corner of two lines of width 6 adds a
// quarter of a disc where they join.
func TestStrokeByHand(t *testing.T) {
	b := NewBitmap(40, 40, 1)
	var p plane.Path
	p.Add(plane.Pixel{X: 12, Y: 5}, plane.Pixel{X: 20, Y: 5})
	b.Stroke(&p, Pen{Color: pencil, Width: 2})
	for y := range 12 {
		for x := 12; x < 20; x++ {
			want := uint8(0)
			if y == 4 || y == 5 {
				want = 255
			}
			if got := b.Painted().RGBAAt(x, y).A; got != want {
				t.Errorf("pixel %d, %d: %d, want %d", x, y, got, want)
			}
		}
	}
	if got, want := covered(b), 16+math.Pi; math.Abs(got-want) > 0.2 {
		t.Errorf("%.2f pixels covered, want %.2f", got, want)
	}

	b = NewBitmap(40, 40, 1)
	p = plane.Path{}
	p.Add(plane.Pixel{X: 10, Y: 30}, plane.Pixel{X: 10, Y: 10}, plane.Pixel{X: 30, Y: 10})
	b.Stroke(&p, Pen{Color: pencil, Width: 6})
	if got, want := covered(b), 2*20*6-9+math.Pi*9*1.25; math.Abs(got-want) > 1 {
		t.Errorf("a corner covers %.2f pixels, want %.2f", got, want)
	}
}

// What two lines of a path cover is covered once.
func TestStrokesOverlapOnce(t *testing.T) {
	b := NewBitmap(20, 20, 1)
	var p plane.Path
	p.Add(plane.Pixel{X: 2, Y: 10}, plane.Pixel{X: 18, Y: 10})
	p.Add(plane.Pixel{X: 10, Y: 18}, plane.Pixel{X: 10, Y: 2})
	thin := pencil
	thin.A = 100
	b.Stroke(&p, Pen{Color: thin, Width: 4})
	if once, twice := b.Painted().RGBAAt(5, 10), b.Painted().RGBAAt(10, 10); once != twice || once.A != 100 {
		t.Errorf("%v on one line, %v where they cross; want both with opacity 100", once, twice)
	}
}

// A hint of a colour leaves ground the colour it is.
func TestLayRounds(t *testing.T) {
	ground := color.RGBA{R: 231, G: 150, B: 61, A: 255}
	for a, want := range map[uint8]color.RGBA{0: ground, 1: ground, 255: {R: 148, G: 91, B: 23, A: 255}, 51: {R: 214, G: 138, B: 53, A: 255}} {
		im := image.NewRGBA(image.Rect(0, 0, 1, 1))
		im.SetRGBA(0, 0, ground)
		lay(im, &image.Alpha{Pix: []uint8{a}, Stride: 1, Rect: im.Rect}, color.NRGBA{R: 148, G: 91, B: 23, A: 255})
		if got := im.RGBAAt(0, 0); got != want {
			t.Errorf("opacity %d: %v, want %v", a, got, want)
		}
	}
}

// All that a shifted canvas draws stands where it stands when it is moved before.
func TestShifted(t *testing.T) {
	draw := func(c Canvas, d plane.Pixel) {
		at := func(x, y float64) plane.Pixel { return plane.Pixel{X: x + d.X, Y: y + d.Y} }
		box := func(x, y float64) *plane.Path {
			return plane.RectPath(plane.Rect{Left: x + d.X, Top: y + d.Y, Right: x + d.X + 9, Bottom: y + d.Y + 7})
		}
		var path plane.Path
		path.Add(at(1, 1), at(9, 8.5))
		c.Fill(box(2.5, 3), pencil)
		c.Stroke(&path, Pen{Color: LineInk, Width: 1.5})
		c.Dots([]plane.Pixel{at(12, 3), at(15, 6)}, 1.2, TextInk)
		c.Mosaic([]Piece{{Shape: box(3, 12), Color: GuideInk}, {Shape: box(12, 12), Color: pencil}})
		c.Clip(Through(box(14, 14)), func(c Canvas) { c.Fill(box(16, 16), TextInk) })
		im := image.NewNRGBA(image.Rect(0, 0, 2, 2))
		im.SetNRGBA(1, 1, pencil)
		c.Image(im, plane.Rect{Left: 20 + d.X, Top: 2 + d.Y, Right: 28 + d.X, Bottom: 10 + d.Y})
		c.Text(Text{At: at(3, 30), String: "Wendrow", Font: Font{Face: Bold, Size: 8}, Color: TextInk})
		c.Layer(NewLayer(plane.Rect{Left: d.X, Top: d.Y, Right: 30 + d.X, Bottom: 30 + d.Y}, func(c Canvas) { c.Fill(box(20, 20), LineInk) }))
	}
	for _, by := range []plane.Pixel{{X: 7, Y: 4}, {X: 7.5, Y: 4.5}} {
		for _, scale := range []float64{1, 2} {
			if by.X*scale != math.Trunc(by.X*scale) {
				continue // what a layer looks like is then not the same everywhere
			}
			moved, shifted := NewBitmap(50, 50, scale), NewBitmap(50, 50, scale)
			draw(moved, by)
			draw(ShiftedBy(shifted, by), plane.Pixel{})
			if !bytes.Equal(moved.Painted().Pix, shifted.Painted().Pix) {
				t.Errorf("by %v at scale %g: the pixels differ", by, scale)
			}
		}
	}
}
