package carto

import (
	"fmt"
	"math"

	"weekband/grid"
)

// Parallels are the two latitudes, in degrees, along which a conic map is
// true to scale. They may be equal and come in either order.
type Parallels struct{ First, Second float64 }

func (p Parallels) String() string {
	if p.First == p.Second {
		return "parallel " + Latitude(p.First)
	}
	return "parallels " + Latitude(p.First) + " and " + Latitude(p.Second)
}

// checkConic returns an error unless a cone exists for the parallels.
func checkConic(what string, e Ellipsoid, origin grid.LonLat, p Parallels) error {
	if err := e.check(what); err != nil {
		return err
	}
	if err := checkOrigin(what, origin); err != nil {
		return err
	}
	if !(math.Abs(p.First) <= 90) || !(math.Abs(p.Second) <= 90) {
		return fmt.Errorf("carto: %s: standard parallels %g and %g; want latitudes from -90 to 90", what, p.First, p.Second)
	}
	if math.Abs(p.First+p.Second) < 1e-10 {
		return fmt.Errorf("carto: %s: standard parallels %g and %g mirror each other at the equator and make no cone; use a cylindrical projection", what, p.First, p.Second)
	}
	return nil
}

// fan returns the cone's angle θ and radius ρ of a point whose cone opens by
// the factor n and whose apex lies ρ0 north of the origin. λ is θ/n.
func fan(p Point, n, ρ0 float64) (ρ, λ float64) {
	x, y := p.X, ρ0-p.Y
	if n < 0 {
		x, y = -x, -y
	}
	return math.Copysign(math.Hypot(x, y), n), math.Atan2(x, y) / n
}
