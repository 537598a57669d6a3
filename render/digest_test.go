package render

import (
	"image"
	"image/color"
	"testing"

	"weekband/render/carto"
)

// What is drawn shifted is summed up as what it looks like, not as what is
// drawn where it stands.
func TestDigestOfShifted(t *testing.T) {
	ink := color.NRGBA{R: 10, G: 60, B: 200, A: 255}
	box := rectPath(Rect{Left: 3, Top: 4, Right: 9, Bottom: 8})
	for name, draw := range map[string]func(Canvas){
		"fill":   func(c Canvas) { c.Fill(box, ink) },
		"stroke": func(c Canvas) { c.Stroke(box, Pen{Color: ink, Width: 1.5}) },
		"dots":   func(c Canvas) { c.Dots([]carto.Pixel{{X: 12, Y: 3}}, 1.2, ink) },
		"mosaic": func(c Canvas) { c.Mosaic([]Piece{{Shape: box, Color: ink}}) },
		"clip":   func(c Canvas) { c.Clip(Through(box), func(c Canvas) { c.Fill(box, ink) }) },
		"image":  func(c Canvas) { c.Image(image.NewNRGBA(image.Rect(0, 0, 2, 2)), Rect{Right: 5, Bottom: 5}) },
		"text":   func(c Canvas) { c.Text(Text{String: "Wendrow", Font: Font{Size: 8}, Color: ink}) },
		"layer":  func(c Canvas) { c.Layer(newLayer(Rect{Right: 30, Bottom: 30}, func(c Canvas) { c.Fill(box, ink) })) },
	} {
		still, shifted := newDigest("page"), newDigest("page")
		draw(still)
		draw(shiftedBy(shifted, carto.Pixel{X: 7.5, Y: 4.5}))
		if shifted.key() == still.key() {
			t.Errorf("%s: summed up as if it stood still", name)
		}
	}
}
