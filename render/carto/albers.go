package carto

import (
	"math"
	"sync"

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
	rings     func() []float64 // radii of parallels, see near
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
	b.rings = sync.OnceValue(b.allRings)
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

// perDegree is how many parallels of a degree have their radius in a list.
const perDegree = 256

// allRings lists the radii of parallels from pole to pole.
func (b *Albers) allRings() []float64 {
	rings := make([]float64, 180*perDegree+2) // one more than there are, so that each has a next
	for i := range rings {
		lat := float64(float64(i)/perDegree) - 90 // a division by a power of two is a product
		rings[i] = b.radius(float64(lat * radian))
	}
	return rings
}

// forwards is Forward that takes radii from between those of the list: on the
// earth that is within two centimetres, except within half a degree of the apex of
// the cone.
func (b *Albers) forwards() func(grid.LonLat) Point {
	rings := b.rings()
	return func(p grid.LonLat) Point {
		at := float64((p.Lat + 90) * perDegree)
		if !(at >= 0 && at <= 180*perDegree) {
			return b.Forward(p)
		}
		i := int(at)
		return b.on(rings[i]+float64((at-float64(i))*(rings[i+1]-rings[i])), p.Lon)
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
