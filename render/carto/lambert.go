package carto

import (
	"fmt"
	"math"

	"weekband/grid"
)

// Lambert is the conformal conic projection with two standard parallels
// (Snyder 1987, ch. 15).
type Lambert struct {
	origin    grid.LonLat
	parallels Parallels
	n, af, ρ0 float64 // cone constant; a·F of eq. 15-10, m; radius of the origin, m
	conf      conformal
}

// NewLambert returns the projection whose point (0, 0) is origin. It returns
// an error when a latitude is outside −90 to 90, when the parallels mirror
// each other at the equator, when one of two different ones is a pole, or when
// the origin is the pole away from the cone's apex.
func NewLambert(e Ellipsoid, origin grid.LonLat, p Parallels) (*Lambert, error) {
	const what = "Lambert conformal conic"
	if err := checkConic(what, e, origin, p); err != nil {
		return nil, err
	}
	if math.Abs(p.First) == 90 || math.Abs(p.Second) == 90 {
		return nil, fmt.Errorf("carto: %s: standard parallels %g and %g; a pole is no parallel of this projection", what, p.First, p.Second)
	}
	l := &Lambert{origin: origin, parallels: p, conf: newConformal(e)}
	φ1, φ2 := float64(p.First*radian), float64(p.Second*radian)
	l.n = math.Sin(φ1)
	if math.Abs(φ1-φ2) > 1e-10 {
		l.n = math.Log(e.m(φ1)/e.m(φ2)) / (l.ψ(φ2) - l.ψ(φ1)) // eq. 15-8, ψ = −ln t
	}
	l.af = e.SemiMajor * e.m(φ1) * math.Exp(l.n*l.ψ(φ1)) / l.n
	l.ρ0 = l.radius(origin.Lat)
	if math.IsInf(l.ρ0, 0) {
		return nil, fmt.Errorf("carto: %s: the origin at latitude %g lies at infinity; choose one on the side of the parallels %g and %g", what, origin.Lat, p.First, p.Second)
	}
	return l, nil
}

// ψ is the isometric latitude, −ln t of eq. 15-9.
func (l *Lambert) ψ(φ float64) float64 { return math.Asinh(l.conf.tanχ(math.Tan(φ))) }

// radius is ρ of a parallel in degrees (eq. 15-7).
func (l *Lambert) radius(lat float64) float64 {
	if math.Abs(lat) == 90 {
		if lat*l.n > 0 {
			return 0
		}
		return math.Inf(1)
	}
	return l.af * math.Exp(-l.n*l.ψ(lat*radian))
}

// Forward returns the point of a position (eqs. 14-1 to 14-4). The pole away
// from the cone's apex is at infinity.
func (l *Lambert) Forward(p grid.LonLat) Point {
	ρ := l.radius(p.Lat)
	sin, cos := math.Sincos(l.n * turn(p.Lon, l.origin.Lon))
	return Point{X: ρ * sin, Y: l.ρ0 - float64(ρ*cos)}
}

// Inverse returns the position of a point (eqs. 14-9 to 14-11, 15-11). ok is
// false in the gap of the cone.
func (l *Lambert) Inverse(p Point) (grid.LonLat, bool) {
	ρ, λ := fan(p, l.n, l.ρ0)
	if math.Abs(λ) > math.Pi+1e-12 || math.IsNaN(λ) {
		return grid.LonLat{}, false
	}
	if ρ == 0 {
		return grid.LonLat{Lon: l.origin.Lon, Lat: math.Copysign(90, l.n)}, true
	}
	τ := l.conf.tanφ(math.Sinh(-math.Log(ρ/l.af) / l.n))
	return grid.LonLat{Lon: around(l.origin.Lon, λ), Lat: math.Atan(τ) / radian}, true
}

func (l *Lambert) String() string { return "Lambert conformal conic, " + l.parallels.String() }
