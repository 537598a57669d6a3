package canvas_test

import (
	"fmt"
	"image/color"

	"weekband/render/canvas"
	"weekband/render/plane"
)

// A box in blue, once in colour and once in grey, at two pixels of the image to
// one of the layout; and a line of words wrapped to 80 pixels.
func Example() {
	blue := color.NRGBA{R: 20, G: 70, B: 200, A: 255}
	draw := func(c canvas.Canvas) {
		c.Fill(plane.RectPath(plane.Rect{Left: 1, Top: 1, Right: 9, Bottom: 5}), blue)
	}
	b := canvas.NewBitmap(10, 12, 2)
	draw(b)
	draw(canvas.ShiftedBy(canvas.InGrey(b), plane.Pixel{Y: 6}))
	fmt.Println(b.Painted().Rect.Size(), b.Painted().RGBAAt(10, 6), b.Painted().RGBAAt(10, 18))
	for _, line := range canvas.Wrap("Soil warms from the south", canvas.Font{Face: canvas.Regular, Size: 12}, 80) {
		fmt.Println(line)
	}
	// Output:
	// (20,24) {20 70 200 255} {87 87 87 255}
	// Soil warms
	// from the south
}
