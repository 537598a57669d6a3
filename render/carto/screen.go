package carto

import (
	"math"

	"weekband/grid"
	"weekband/render/plane"
)

// Bounds is a rectangle on the map in metres. The zero value is the single
// point (0, 0).
type Bounds struct{ Min, Max Point }

// NoBounds holds no point; the first one added with With becomes both corners.
var NoBounds = Bounds{Min: Point{X: math.Inf(1), Y: math.Inf(1)}, Max: Point{X: math.Inf(-1), Y: math.Inf(-1)}}

// Extent returns the bounds of a box on the map, following its edges at
// sixty-four places each. Places at infinity are left out.
func Extent(p Projection, box grid.Box) Bounds {
	const steps = 64
	b := NoBounds
	for i := range steps + 1 {
		f := float64(i) / steps
		lon, lat := box.West+float64(f*(box.East-box.West)), box.South+float64(f*(box.North-box.South))
		for _, at := range []grid.LonLat{
			{Lon: lon, Lat: box.South}, {Lon: lon, Lat: box.North}, {Lon: box.West, Lat: lat}, {Lon: box.East, Lat: lat},
		} {
			b = b.With(p.Forward(at))
		}
	}
	return b
}

// With returns the bounds widened to hold p, to a 1024th of a metre, so that
// maps are laid out alike on machines whose sines differ in their last bits. A
// point at infinity changes nothing.
func (b Bounds) With(p Point) Bounds {
	if math.IsInf(p.X, 0) || math.IsInf(p.Y, 0) || math.IsNaN(p.X) || math.IsNaN(p.Y) {
		return b
	}
	p = Point{X: math.RoundToEven(p.X*1024) / 1024, Y: math.RoundToEven(p.Y*1024) / 1024}
	return Bounds{
		Min: Point{X: min(b.Min.X, p.X), Y: min(b.Min.Y, p.Y)},
		Max: Point{X: max(b.Max.X, p.X), Y: max(b.Max.Y, p.Y)},
	}
}

// Width returns the width in metres.
func (b Bounds) Width() float64 { return b.Max.X - b.Min.X }

// Height returns the height in metres.
func (b Bounds) Height() float64 { return b.Max.Y - b.Min.Y }

// Screen places a map on an image: one scale, north up.
type Screen struct {
	perMetre float64
	x0, y0   float64 // pixel of the map's point (0, 0)
}

// Fit returns the Screen that shows b as large as it fits into the rectangle
// of the image from topLeft to bottomRight, in its middle. Both rectangles
// must have an area.
func Fit(b Bounds, topLeft, bottomRight plane.Pixel) Screen {
	w, h := bottomRight.X-topLeft.X, bottomRight.Y-topLeft.Y
	s := min(w/b.Width(), h/b.Height())
	if !(s > 0) || math.IsInf(s, 0) {
		panic("carto: fitting a map without area")
	}
	return Screen{
		perMetre: s,
		x0:       (topLeft.X+bottomRight.X)/2 - s*(b.Min.X+b.Max.X)/2,
		y0:       (topLeft.Y+bottomRight.Y)/2 + s*(b.Min.Y+b.Max.Y)/2,
	}
}

// Pixel returns the place of a point on the image, to 2⁻²⁴ pixels: sines and
// their like differ in the last bit from machine to machine, and a place that
// is meant to be a whole pixel would lie on either side of it.
func (s Screen) Pixel(p Point) plane.Pixel {
	return plane.Pixel{X: even(s.x0 + float64(s.perMetre*p.X)), Y: even(s.y0 - float64(s.perMetre*p.Y))}
}

func even(v float64) float64 { return float64(math.RoundToEven(v*(1<<24)) / (1 << 24)) }

// Point returns the point of the map at a place on the image.
func (s Screen) Point(p plane.Pixel) Point {
	return Point{X: (p.X - s.x0) / s.perMetre, Y: (s.y0 - p.Y) / s.perMetre}
}

// PixelsPerMetre returns the scale of the map.
func (s Screen) PixelsPerMetre() float64 { return s.perMetre }
