package render

import (
	"image/color"
	"math"

	"weekband/render/carto"
)

// setting is a name set in lines at a size.
type setting struct {
	lines         []string
	font          Font
	width, height float64
}

// newSetting sets a name in lines.
func newSetting(lines []string, font Font) setting {
	s := setting{lines: lines, font: font}
	for _, l := range lines {
		s.width = max(s.width, font.Width(l))
	}
	s.height = float64(float64(len(lines)-1)*font.Line()) + float64(font.Size*0.95)
	return s
}

// halves splits a name at the space that leaves the shortest longer line, nil
// when it has none.
func halves(name string, font Font) []string {
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

// at returns the setting as a label with its middle at a place.
func (s setting) at(c carto.Pixel, kind Kind, color textStyle) label {
	l := label{kind: kind}
	l.box = Rect{Left: c.X - s.width/2, Right: c.X + s.width/2, Top: c.Y - s.height/2, Bottom: c.Y + s.height/2}
	for i, text := range s.lines {
		l.lines = append(l.lines, Text{
			At:     carto.Pixel{X: c.X, Y: l.box.Top + float64(s.font.Size*0.78) + float64(float64(i)*s.font.Line())},
			Anchor: Middle, String: text, Font: s.font, Color: color.ink, Halo: color.halo,
		})
	}
	return l
}

// textStyle is how names on the map are written.
type textStyle struct {
	ink  color.NRGBA
	halo float64
}

func regionStyle(unit float64) textStyle { return textStyle{ink: textColor, halo: unit * 0.13} }

func placeStyle(unit float64) textStyle { return textStyle{ink: textColor, halo: unit * 0.12} }
