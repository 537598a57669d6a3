package carto

import (
	"math"

	"weekband/grid"
)

// Azimuthal is Lambert's azimuthal equal-area projection (Snyder 1987,
// ch. 24).
type Azimuthal struct {
	origin     grid.LonLat
	rq, d      float64 // authalic radius, m; D of eq. 24-20
	sin1, cos1 float64 // of the authalic latitude of the origin
	auth       authalic
}

// NewAzimuthal returns the projection centred on origin, its point (0, 0). It
// returns an error when the latitude is outside −90 to 90.
func NewAzimuthal(e Ellipsoid, origin grid.LonLat) (*Azimuthal, error) {
	const what = "Lambert azimuthal equal-area"
	if err := e.check(what); err != nil {
		return nil, err
	}
	if err := checkOrigin(what, origin); err != nil {
		return nil, err
	}
	z := &Azimuthal{origin: origin, auth: newAuthalic(e), d: 1}
	z.rq = e.SemiMajor * math.Sqrt(z.auth.qp/2)
	φ1 := origin.Lat * radian
	z.sin1, z.cos1 = math.Sincos(z.auth.forward.at(φ1))
	if math.Abs(origin.Lat) == 90 {
		z.sin1, z.cos1 = math.Copysign(1, origin.Lat), 0
	} else {
		z.d = e.SemiMajor * e.m(φ1) / (z.rq * z.cos1)
	}
	return z, nil
}

// Forward returns the point of a position (eqs. 24-17 to 24-19). The position
// opposite the centre is at infinity.
func (z *Azimuthal) Forward(p grid.LonLat) Point {
	sin, cos := math.Sincos(z.auth.forward.at(p.Lat * radian))
	sinλ, cosλ := math.Sincos(turn(p.Lon, z.origin.Lon))
	// Half the chord: with u the angle from the centre, 1+cos u = 2 cos²(u/2).
	x, y := cos*sinλ, float64(z.cos1*sin)-float64(z.sin1*cos*cosλ)
	b := z.rq * math.Sqrt(2/(1+float64(z.sin1*sin)+float64(z.cos1*cos*cosλ)))
	return Point{X: b * z.d * x, Y: b / z.d * y}
}

// Inverse returns the position of a point (eqs. 24-26 to 24-29). ok is false
// outside the map's circle.
func (z *Azimuthal) Inverse(p Point) (grid.LonLat, bool) {
	x, y := p.X/z.d, p.Y*z.d
	ρ := math.Hypot(x, y)
	if !(ρ <= 2*z.rq) {
		return grid.LonLat{}, false
	}
	if ρ == 0 {
		return z.origin, true
	}
	sin, cos := math.Sincos(2 * math.Asin(ρ/(2*z.rq)))
	// The position as a vector: tan β from all three parts keeps its digits
	// near the poles.
	up := float64(cos*z.sin1) + y*sin*z.cos1/ρ
	out, side := float64(cos*z.cos1)-y*sin*z.sin1/ρ, x*sin/ρ
	β := math.Atan2(up, math.Hypot(out, side))
	return grid.LonLat{
		Lon: around(z.origin.Lon, math.Atan2(side, out)),
		Lat: z.auth.inverse.at(β) / radian,
	}, true
}

func (z *Azimuthal) String() string {
	if math.Abs(z.origin.Lat) == 90 {
		return "Lambert azimuthal equal-area, centre at the pole"
	}
	return "Lambert azimuthal equal-area, centre " + Latitude(z.origin.Lat) + ", " + Longitude(z.origin.Lon)
}
