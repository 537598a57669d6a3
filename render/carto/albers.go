package carto

import (
	"math"

	"weekband/grid"
)

// Albers is the equal-area conic projection with two standard parallels
// (Snyder 1987, ch. 14).
type Albers struct {
	origin    grid.LonLat
	parallels Parallels
	a         float64 // semi-major axis, m
	n, c, ρ0  float64 // cone constant; C of eq. 14-13; radius of the origin, m
	auth      authalic
}

// NewAlbers returns the projection whose point (0, 0) is origin. It returns
// an error when a latitude is outside −90 to 90, when the parallels mirror
// each other at the equator, or when the ellipsoid is none.
func NewAlbers(e Ellipsoid, origin grid.LonLat, p Parallels) (*Albers, error) {
	if err := checkConic("Albers equal-area conic", e, origin, p); err != nil {
		return nil, err
	}
	φ1, φ2 := float64(p.First*radian), float64(p.Second*radian)
	m1, m2, q1, q2 := e.m(φ1), e.m(φ2), e.q(φ1), e.q(φ2)
	n := math.Sin(φ1)
	if math.Abs(φ1-φ2) > 1e-10 {
		n = (float64(m1*m1) - float64(m2*m2)) / (q2 - q1) // eq. 14-14
	}
	b := &Albers{origin: origin, parallels: p, a: e.SemiMajor, n: n, c: float64(m1*m1) + float64(n*q1), auth: newAuthalic(e)}
	b.ρ0 = b.radius(origin.Lat * radian)
	return b, nil
}

// radius is ρ of a parallel (eq. 14-12).
func (b *Albers) radius(φ float64) float64 {
	q := b.auth.qp * math.Sin(b.auth.forward.at(φ))
	return b.a * math.Sqrt(max(0, b.c-float64(b.n*q))) / b.n
}

// Forward returns the point of a position (eqs. 14-1 to 14-4).
func (b *Albers) Forward(p grid.LonLat) Point { return b.on(b.radius(p.Lat*radian), p.Lon) }

// on returns the point of a longitude on the parallel of a radius.
func (b *Albers) on(ρ, lon float64) Point {
	sin, cos := math.Sincos(b.n * turn(lon, b.origin.Lon))
	return Point{X: ρ * sin, Y: b.ρ0 - float64(ρ*cos)}
}

// forwards is Forward that need not work out again a parallel met just before.
func (b *Albers) forwards() func(grid.LonLat) Point {
	lat, ρ := math.NaN(), 0.0
	return func(p grid.LonLat) Point {
		if p.Lat != lat {
			lat, ρ = p.Lat, b.radius(p.Lat*radian)
		}
		return b.on(ρ, p.Lon)
	}
}

// Inverse returns the position of a point (eqs. 14-8 to 14-11, 14-19). ok is
// false beyond the pole's arc and in the gap of the cone.
func (b *Albers) Inverse(p Point) (grid.LonLat, bool) {
	ρ, λ := fan(p, b.n, b.ρ0)
	r := ρ * b.n / b.a
	φ, ok := b.auth.latitude((b.c - float64(r*r)) / b.n)
	if !ok || math.Abs(λ) > math.Pi+1e-12 {
		return grid.LonLat{}, false
	}
	return grid.LonLat{Lon: around(b.origin.Lon, λ), Lat: φ / radian}, true
}

func (b *Albers) String() string { return "Albers equal-area conic, " + b.parallels.String() }
