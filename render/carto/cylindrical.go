package carto

import (
	"fmt"
	"math"

	"weekband/grid"
)

// Cylindrical is the equal-area cylindrical projection (Snyder 1987, ch. 10).
type Cylindrical struct {
	lon0, parallel float64 // degrees
	a, k0          float64 // semi-major axis, m; scale along the equator
	auth           authalic
}

// NewCylindrical returns the projection around the meridian lon0 that is true
// to scale along the parallels ± parallel, both in degrees. Its point (0, 0)
// lies on the equator. It returns an error when parallel is not within −90 to
// 90, poles excluded.
func NewCylindrical(e Ellipsoid, lon0, parallel float64) (*Cylindrical, error) {
	const what = "cylindrical equal-area"
	if err := e.check(what); err != nil {
		return nil, err
	}
	if err := checkOrigin(what, grid.LonLat{Lon: lon0}); err != nil {
		return nil, err
	}
	if !(math.Abs(parallel) < 90) {
		return nil, fmt.Errorf("carto: %s: standard parallel %g; want a latitude between -90 and 90", what, parallel)
	}
	return &Cylindrical{
		lon0: lon0, parallel: math.Abs(parallel),
		a: e.SemiMajor, k0: e.m(parallel * radian), auth: newAuthalic(e),
	}, nil
}

// Forward returns the point of a position (eqs. 10-13 to 10-15).
func (c *Cylindrical) Forward(p grid.LonLat) Point {
	q := c.auth.qp * math.Sin(c.auth.forward.at(p.Lat*radian))
	return Point{X: c.a * c.k0 * turn(p.Lon, c.lon0), Y: c.a * q / (2 * c.k0)}
}

// Inverse returns the position of a point (eqs. 10-20, 10-21). ok is false
// outside the map's rectangle.
func (c *Cylindrical) Inverse(p Point) (grid.LonLat, bool) {
	λ := p.X / (c.a * c.k0)
	φ, ok := c.auth.latitude(2 * p.Y * c.k0 / c.a)
	if !ok || !(math.Abs(λ) <= math.Pi+1e-12) {
		return grid.LonLat{}, false
	}
	return grid.LonLat{Lon: around(c.lon0, λ), Lat: φ / radian}, true
}

func (c *Cylindrical) String() string {
	if c.parallel == 0 {
		return "cylindrical equal-area, true at the equator"
	}
	return fmt.Sprintf("cylindrical equal-area, parallels %g° N and S", math.Round(c.parallel*100)/100)
}
