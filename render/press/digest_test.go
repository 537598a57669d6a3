package press

import (
	"image"
	"image/color"
	"testing"

	"weekband/render/canvas"
	"weekband/render/plane"
)

// What is drawn shifted is summed up as what it looks like, not as what is
// drawn where it stands.
func TestDigestOfShifted(t *testing.T) {
	ink := color.NRGBA{R: 10, G: 60, B: 200, A: 255}
	box := plane.RectPath(plane.Rect{Left: 3, Top: 4, Right: 9, Bottom: 8})
	for name, draw := range map[string]func(canvas.Canvas){
		"fill":   func(c canvas.Canvas) { c.Fill(box, ink) },
		"stroke": func(c canvas.Canvas) { c.Stroke(box, canvas.Pen{Color: ink, Width: 1.5}) },
		"dots":   func(c canvas.Canvas) { c.Dots([]plane.Pixel{{X: 12, Y: 3}}, 1.2, ink) },
		"mosaic": func(c canvas.Canvas) { c.Mosaic([]canvas.Piece{{Shape: box, Color: ink}}) },
		"clip":   func(c canvas.Canvas) { c.Clip(canvas.Through(box), func(c canvas.Canvas) { c.Fill(box, ink) }) },
		"image": func(c canvas.Canvas) {
			c.Image(image.NewNRGBA(image.Rect(0, 0, 2, 2)), plane.Rect{Right: 5, Bottom: 5})
		},
		"text": func(c canvas.Canvas) { c.Text(canvas.Text{String: "Wendrow", Font: canvas.Font{Size: 8}, Color: ink}) },
		"layer": func(c canvas.Canvas) {
			c.Layer(canvas.NewLayer(plane.Rect{Right: 30, Bottom: 30}, func(c canvas.Canvas) { c.Fill(box, ink) }))
		},
	} {
		still, shifted := newDigest("page"), newDigest("page")
		draw(still)
		draw(canvas.ShiftedBy(shifted, plane.Pixel{X: 7.5, Y: 4.5}))
		if shifted.key() == still.key() {
			t.Errorf("%s: summed up as if it stood still", name)
		}
	}
}
