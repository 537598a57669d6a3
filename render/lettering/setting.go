package lettering

import (
	"image/color"
	"math"

	"weekband/render/canvas"
	"weekband/render/plane"
	"weekband/render/press"
)

// Setting is a name set in lines at a size; width and height are in pixels.
type Setting struct {
	Lines         []string
	Font          canvas.Font
	Width, Height float64
}

// NewSetting sets a name in lines.
func NewSetting(lines []string, font canvas.Font) Setting {
	s := Setting{Lines: lines, Font: font}
	for _, l := range lines {
		s.Width = max(s.Width, font.Width(l))
	}
	s.Height = float64(float64(len(lines)-1)*font.Line()) + float64(font.Size*0.95)
	return s
}

// Halves splits a name at the space that leaves the shortest longer line, nil
// when it has none.
func Halves(name string, font canvas.Font) []string {
	var best []string
	least := math.Inf(1)
	for i, r := range name {
		if r != ' ' {
			continue
		}
		if w := max(font.Width(name[:i]), font.Width(name[i+1:])); w < least {
			best, least = []string{name[:i], name[i+1:]}, w
		}
	}
	return best
}

// At returns the setting as a label with its middle at a place.
func (s Setting) At(c plane.Pixel, kind press.Kind, color Style) Label {
	l := Label{Kind: kind}
	l.Box = plane.Rect{Left: c.X - s.Width/2, Right: c.X + s.Width/2, Top: c.Y - s.Height/2, Bottom: c.Y + s.Height/2}
	for i, text := range s.Lines {
		l.Lines = append(l.Lines, canvas.Text{
			At:     plane.Pixel{X: c.X, Y: l.Box.Top + float64(s.Font.Size*0.78) + float64(float64(i)*s.Font.Line())},
			Anchor: canvas.Middle, String: text, Font: s.Font, Color: color.ink, Halo: color.halo,
		})
	}
	return l
}

// Style is how a name is written: its ink, and the width of its rim in pixels.
type Style struct {
	ink  color.NRGBA
	halo float64
}

func regionStyle(unit float64) Style { return Style{ink: canvas.TextInk, halo: unit * 0.13} }

// PlaceStyle is how names of places are written, at a unit of that many pixels.
func PlaceStyle(unit float64) Style { return Style{ink: canvas.TextInk, halo: unit * 0.12} }
