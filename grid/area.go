package grid

import "math"

// WGS 84, from NGA.STND.0036: semi-major axis and flattening.
const (
	semiMajorKm = 6378.137
	flattening  = 1 / 298.257223563
)

const radian = math.Pi / 180

// zoneKm2 is the area of the ellipsoid between the equator and latitude φ
// for one radian of longitude, in km², negative to the south.
//
//	Z = b²/2 · [ s/(1−e²s²) + ln((1+es)/(1−es))/(2e) ],  s = sin φ
//
// Snyder 1987, Map Projections: A Working Manual, from q of eq. 3-12.
func zoneKm2(latDeg float64) float64 {
	e2 := flattening * (2 - flattening)
	e := math.Sqrt(e2)
	s := math.Sin(latDeg * radian)
	b2 := semiMajorKm * semiMajorKm * (1 - e2)
	return b2 / 2 * (s/(1-float64(e2*s*s)) + math.Log((1+float64(e*s))/(1-float64(e*s)))/(2*e))
}

// Area returns the area of the box on the WGS 84 ellipsoid in km².
func (b Box) Area() float64 {
	return (zoneKm2(b.North) - zoneKm2(b.South)) * (b.East - b.West) * radian
}

// CellArea returns the area in km², on the WGS 84 ellipsoid, of each cell of
// a row.
func (g Grid) CellArea(row int) float64 {
	return (zoneKm2(g.lat(row)) - zoneKm2(g.lat(row+1))) * g.StepLon() * radian
}
