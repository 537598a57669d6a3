package carto

import (
	"fmt"
	"math"
)

// Ellipsoid is the figure of the earth: its semi-major axis in metres and its
// flattening, 0 for a sphere.
type Ellipsoid struct{ SemiMajor, Flattening float64 }

// WGS84 is the ellipsoid of NGA.STND.0036, on which grid.LonLat is given.
var WGS84 = Ellipsoid{SemiMajor: 6378137, Flattening: 1 / 298.257223563}

// GRS80 is the Geodetic Reference System 1980 (Moritz 2000, J. Geodesy
// 74:128), the ellipsoid of most national datums.
var GRS80 = Ellipsoid{SemiMajor: 6378137, Flattening: 1 / 298.257222101}

// Sphere returns a sphere with a radius in metres.
func Sphere(radius float64) Ellipsoid { return Ellipsoid{SemiMajor: radius} }

// maxFlattening bounds what the series are made for: at 1/100 the terms left
// out are below 1e-16.
const maxFlattening = 0.01

func (e Ellipsoid) check(what string) error {
	if !(e.SemiMajor > 0) || math.IsInf(e.SemiMajor, 0) || !(e.Flattening >= 0 && e.Flattening <= maxFlattening) {
		return fmt.Errorf("carto: %s: semi-major axis %g m, flattening %g; want a positive axis and a flattening from 0 to %g", what, e.SemiMajor, e.Flattening, maxFlattening)
	}
	return nil
}

// e2 is the square of the first eccentricity.
func (e Ellipsoid) e2() float64 { return float64(e.Flattening * (2 - e.Flattening)) }

// m is the radius of the parallel φ over the semi-major axis (Snyder 1987,
// eq. 14-15).
func (e Ellipsoid) m(φ float64) float64 {
	sin, cos := math.Sincos(φ)
	return cos / math.Sqrt(1-float64(e.e2()*sin*sin))
}

// q is proportional to the area from the equator to φ (Snyder 1987, eq. 3-12).
func (e Ellipsoid) q(φ float64) float64 {
	s := math.Sin(φ)
	e2 := e.e2()
	if e2 == 0 {
		return 2 * s
	}
	ecc := math.Sqrt(e2)
	return (1 - e2) * (s/(1-float64(e2*s*s)) + math.Atanh(ecc*s)/ecc)
}
