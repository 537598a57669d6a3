package render

import (
	"math"

	"weekband/render/canvas"
	"weekband/render/carto"
	"weekband/render/plane"
	"weekband/render/wording"
)

// honestKm is the widest map whose scale bar holds everywhere to a few
// percent; wider ones get none.
const honestKm = 2000

// lengths are the round lengths a bar may have, in any power of ten.
var lengths = [...]float64{5, 2, 1}

// scaleBar is a bar of a round length in kilometres and its label.
type scaleBar struct {
	km     float64
	pixels float64
}

// newScaleBar returns a bar of at most a share of the frame's width. ok is
// false when the frame shows more than honestKm.
func newScaleBar(s carto.Screen, frame plane.Rect, share float64) (bar scaleBar, ok bool) {
	perKm := s.PixelsPerMetre() * 1000
	if max(frame.Width(), frame.Height())/perKm > honestKm {
		return scaleBar{}, false
	}
	room := frame.Width() * share / perKm
	decade := math.Pow(10, math.Floor(math.Log10(room)))
	for _, l := range lengths {
		if km := l * decade; km <= room {
			return scaleBar{km: km, pixels: km * perKm}, true
		}
	}
	return scaleBar{}, false
}

// label writes the length.
func (b scaleBar) label(lang *wording.Language) string { return lang.Map.ScaleBar(b.km) }

// at returns the bar with its left lower end at a place: a line with end
// ticks, and its label over it.
func (b scaleBar) at(p plane.Pixel, font canvas.Font, lang *wording.Language) (*plane.Path, canvas.Text) {
	tick := float64(font.Size * 0.3)
	var path plane.Path
	path.Add(plane.Pixel{X: p.X, Y: p.Y - tick}, p, plane.Pixel{X: p.X + b.pixels, Y: p.Y}, plane.Pixel{X: p.X + b.pixels, Y: p.Y - tick})
	return &path, canvas.Text{
		At:     plane.Pixel{X: p.X + b.pixels/2, Y: p.Y - float64(font.Size*0.6)},
		Anchor: canvas.Middle, String: b.label(lang), Font: font, Color: canvas.LesserInk,
	}
}
