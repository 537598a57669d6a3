package carto

import (
	"fmt"
	"math"

	"weekband/grid"
)

// Point is a place on the map in metres, X to the east and Y to the north of
// the projection's origin.
type Point struct{ X, Y float64 }

// Projection turns positions into points on a map.
type Projection interface {
	// Forward returns the point of a position. Positions that a projection
	// cannot show give points at infinity.
	Forward(grid.LonLat) Point
	// Inverse returns the position of a point, longitude in [-180, 180]. ok
	// is false when the point lies outside the map.
	Inverse(Point) (p grid.LonLat, ok bool)
	// String returns the name and parameters as printed on a map, such as
	// "Albers equal-area conic, parallels 29.5° N and 45.5° N".
	String() string
}

// manyPositions is from how many on Forwards prepares.
const manyPositions = 1000

// Forwards returns Forward of a projection for n positions; of many it may be two
// centimetres off, and is several times as quick.
func Forwards(p Projection, n int) func(grid.LonLat) Point {
	if b, ok := p.(*Albers); ok && n >= manyPositions {
		return b.forwards()
	}
	return p.Forward
}

const radian = math.Pi / 180

// turn returns the longitude difference lon−lon0 in radians, within [-π, π].
func turn(lon, lon0 float64) float64 {
	d := lon - lon0
	if d > 180 || d < -180 {
		d = math.Remainder(d, 360)
	}
	return d * radian
}

// around returns the longitude λ radians east of lon0, in degrees within
// [-180, 180].
func around(lon0, λ float64) float64 {
	lon := lon0 + λ/radian
	if lon > 180 || lon < -180 {
		lon = math.Remainder(lon, 360)
	}
	return lon
}

// checkOrigin returns an error unless p is a position on the earth.
func checkOrigin(what string, p grid.LonLat) error {
	if !(math.Abs(p.Lat) <= 90) || !(math.Abs(p.Lon) <= 360) {
		return fmt.Errorf("carto: %s: origin at longitude %g, latitude %g; want a latitude from -90 to 90 and a longitude from -360 to 360", what, p.Lon, p.Lat)
	}
	return nil
}

// Latitude writes a latitude as "45.5° N", without needless decimals.
func Latitude(lat float64) string { return degrees(lat, "N", "S") }

// Longitude writes a longitude as "96° W".
func Longitude(lon float64) string { return degrees(lon, "E", "W") }

func degrees(v float64, positive, negative string) string {
	v = math.Round(v*100) / 100
	switch {
	case v > 0:
		return fmt.Sprintf("%g° %s", v, positive)
	case v < 0:
		return fmt.Sprintf("%g° %s", -v, negative)
	}
	return "0°"
}
