package canvas

import (
	"image"
	"image/color"

	"weekband/render/plane"
)

// Canvas is a surface that a page is drawn on. Lengths are layout pixels,
// which a back end may enlarge; X runs to the right and Y down from the top
// left corner. Later shapes cover earlier ones.
type Canvas interface {
	// Fill paints the inside of a path; inside is where its rings wind around
	// a place, so holes run against their outer ring.
	Fill(*plane.Path, color.NRGBA)
	// Stroke draws along the lines of a path.
	Stroke(*plane.Path, Pen)
	// Dots draws round dots of one radius.
	Dots(at []plane.Pixel, radius float64, c color.NRGBA)
	// Mosaic paints pieces that share edges so that nothing shines through
	// between them. Pieces must not overlap.
	Mosaic([]Piece)
	// Clip runs draw; what it paints shows only through the stencil.
	Clip(inside Stencil, draw func(Canvas))
	// Image lays a picture over a rectangle, stretched to fill it and smooth
	// between its pixels; opacity shows what is below. It must not change.
	Image(*image.NRGBA, plane.Rect)
	// Text writes one line.
	Text(Text)
	// Layer draws what many pages share.
	Layer(*Layer)
}

// Pen is how a line is drawn: width in pixels, round joins and ends.
type Pen struct {
	Color color.NRGBA
	Width float64
}

// Piece is one part of a Mosaic, of an opaque colour.
type Piece struct {
	Shape *plane.Path
	Color color.NRGBA
}
