package render

import (
	"image"
	"image/draw"

	"golang.org/x/image/vector"

	"weekband/render/carto"
)

// tile is the longest side of what is rasterized at once, in image pixels: of
// larger ones the rasterizer adds up coverage in floating point, in another
// order from machine to machine, of these in integers.
const tile = 512

// mask returns how much of each pixel a path covers, within the pixels it
// touches.
func (b *bitmap) mask(p *Path) *image.Alpha {
	part := b.pixels(p.Bounds())
	mask := image.NewAlpha(part)
	var r vector.Rasterizer
	for y := part.Min.Y; y < part.Max.Y; y += tile {
		for x := part.Min.X; x < part.Max.X; x += tile {
			piece := image.Rect(x, y, x+tile, y+tile).Intersect(part)
			r.Reset(piece.Dx(), piece.Dy())
			b.outline(&r, p, piece)
			r.DrawOp = draw.Src
			r.Draw(mask, piece, image.Opaque, image.Point{})
		}
	}
	return mask
}

// outline hands the lines of a path to what rasterizes a piece of the image,
// but for those above and below the piece, which cover nothing of it.
func (b *bitmap) outline(r *vector.Rasterizer, p *Path, piece image.Rectangle) {
	height := float32(piece.Dy())
	at := func(q carto.Pixel) (x, y float32) {
		x0, y0 := b.at(q)
		return float32(x0 - float64(piece.Min.X)), float32(y0 - float64(piece.Min.Y))
	}
	for _, l := range p.lines {
		x0, y0 := at(l.points[len(l.points)-1])
		r.MoveTo(x0, y0)
		for _, q := range l.points {
			x, y := at(q)
			if max(y0, y) <= 0 || min(y0, y) >= height {
				r.MoveTo(x, y)
			} else {
				r.LineTo(x, y)
			}
			y0 = y
		}
	}
}
