package press

import (
	"image"
	"image/color"
	"testing"
)

// An image of few colours in a palette is the same to the last bit.
func TestPaletted(t *testing.T) {
	im := image.NewNRGBA(image.Rect(0, 0, 30, 20))
	for i := range im.Pix {
		im.Pix[i] = uint8(i % 13 * (i % 3))
	}
	few, ok := paletted(im)
	if !ok {
		t.Fatal("not in a palette")
	}
	for y := range 20 {
		for x := range 30 {
			if got, want := few.At(x, y), im.NRGBAAt(x, y); got != want {
				t.Fatalf("pixel %d, %d: %v, want %v", x, y, got, want)
			}
		}
	}
	for i := range 300 {
		im.SetNRGBA(i%30, i/30, color.NRGBA{R: uint8(i), G: uint8(i / 256), A: 255})
	}
	if _, ok := paletted(im); ok {
		t.Error("300 colours in a palette of 256")
	}
}
