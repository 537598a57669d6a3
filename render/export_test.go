package render

import (
	"image"
	"image/color"

	"weekband/grid/status"
)

// Image returns the painting as it was painted, to compare with.
func (p *Painting) Image() *image.RGBA { return p.image() }

// Laid returns where a page comes out on paper: points per layout pixel, and
// its top left corner in points.
func (s PaperSize) Laid(l Layout) (scale, left, top float64) {
	sheet := s.lay(l)
	return sheet.scale, sheet.left, sheet.top
}

// StatusTone returns the tone of a status on maps.
func StatusTone(s status.Status) color.NRGBA { return statusLooks[s].tone }
