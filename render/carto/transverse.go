package carto

import (
	"fmt"
	"math"

	"weekband/grid"
)

// TransverseMercator is the transverse Mercator projection by Krüger's series in the
// third flattening n to the sixth order, after Karney 2011, J. Geodesy 85:475,
// eqs. 7–35. Errors stay below a micrometre within 35° of the meridian.
type TransverseMercator struct {
	origin      grid.LonLat
	k0          float64
	ka          float64 // k0 × rectifying radius, m
	y0          float64 // distance of the origin from the equator, m
	alpha, beta [terms]float64
	conf        conformal
}

// kruegerAlpha and kruegerBeta hold the coefficients of Karney 2011 eq. 35 (alpha) and eq. 36
// (beta): row k, column j is the factor of n^(k+1+j). From memory; the tests
// check them against published coordinates and PROJ.
var kruegerAlpha = [terms][]float64{
	{1. / 2, -2. / 3, 5. / 16, 41. / 180, -127. / 288, 7891. / 37800},
	{13. / 48, -3. / 5, 557. / 1440, 281. / 630, -1983433. / 1935360},
	{61. / 240, -103. / 140, 15061. / 26880, 167603. / 181440},
	{49561. / 161280, -179. / 168, 6601661. / 7257600},
	{34729. / 80640, -3418889. / 1995840},
	{212378941. / 319334400},
}

var kruegerBeta = [terms][]float64{
	{1. / 2, -2. / 3, 37. / 96, -1. / 360, -81. / 512, 96199. / 604800},
	{1. / 48, 1. / 15, -437. / 1440, 46. / 105, -1118711. / 3870720},
	{17. / 480, -37. / 840, -209. / 4480, 5569. / 90720},
	{4397. / 161280, -11. / 504, -830251. / 7257600},
	{4583. / 161280, -108847. / 3991680},
	{20648693. / 638668800},
}

// NewTransverseMercator returns the projection around the meridian of origin, whose
// point (0, 0) is origin, with scale k0 along that meridian. It returns an
// error when the latitude is outside −90 to 90 or k0 is not positive.
func NewTransverseMercator(e Ellipsoid, origin grid.LonLat, k0 float64) (*TransverseMercator, error) {
	const what = "transverse Mercator"
	if err := e.check(what); err != nil {
		return nil, err
	}
	if err := checkOrigin(what, origin); err != nil {
		return nil, err
	}
	if !(k0 > 0) || math.IsInf(k0, 0) {
		return nil, fmt.Errorf("carto: %s: scale %g on the central meridian; want a positive number such as 0.9996", what, k0)
	}
	n := e.Flattening / (2 - e.Flattening)
	m := &TransverseMercator{origin: origin, k0: k0, conf: newConformal(e)}
	m.ka = k0 * e.SemiMajor / (1 + n) * (1 + float64(n*n*(1./4+float64(n*n*(1./64+n*n/256)))))
	for k := range terms {
		m.alpha[k] = power(kruegerAlpha[k], n, k+1)
		m.beta[k] = power(kruegerBeta[k], n, k+1)
	}
	m.y0 = m.northing(origin.Lat, 0).Y
	return m, nil
}

// power returns n^lead · Σ c[j] n^j.
func power(c []float64, n float64, lead int) float64 {
	sum := 0.0
	for j := len(c) - 1; j >= 0; j-- {
		sum = float64(sum*n) + c[j]
	}
	return sum * math.Pow(n, float64(lead))
}

// Forward returns the point of a position. Positions 90° off the meridian on
// the equator are at infinity.
func (m *TransverseMercator) Forward(p grid.LonLat) Point {
	q := m.northing(p.Lat, turn(p.Lon, m.origin.Lon))
	q.Y -= m.y0
	return q
}

// northing is Forward counted from the equator (eqs. 7–11).
func (m *TransverseMercator) northing(lat, λ float64) Point {
	sin, cos := math.Sincos(λ)
	τ := m.conf.tanχ(math.Tan(lat * radian))
	ξ := math.Atan2(τ, cos)
	η := math.Asinh(sin / math.Hypot(τ, cos))
	dξ, dη := waves(&m.alpha, ξ, η)
	return Point{X: m.ka * (η + dη), Y: m.ka * (ξ + dξ)}
}

// waves returns Σ cₖ sin 2kξ cosh 2kη and Σ cₖ cos 2kξ sinh 2kη, the two parts
// of Σ cₖ sin 2k(ξ+iη), by Clenshaw's recurrence in complex numbers.
func waves(c *[terms]float64, ξ, η float64) (dξ, dη float64) {
	s, k := math.Sincos(2 * ξ)
	sh, ch := math.Sinh(2*η), math.Cosh(2*η)
	sin, cos2 := complex(s*ch, k*sh), complex(2*k*ch, -2*s*sh)
	var b1, b2 complex128
	for j := terms - 1; j >= 0; j-- {
		b1, b2 = complex(c[j], 0)+product(cos2, b1)-b2, b1
	}
	sum := product(b1, sin)
	return real(sum), imag(sum)
}

// product is a times b with each of its four products rounded, which Go's own
// leaves to the machine.
func product(a, b complex128) complex128 {
	return complex(
		float64(real(a)*real(b))-float64(imag(a)*imag(b)),
		float64(real(a)*imag(b))+float64(imag(a)*real(b)),
	)
}

// Inverse returns the position of a point (eqs. 12–18). ok is false beyond
// the poles' meridians.
func (m *TransverseMercator) Inverse(p Point) (grid.LonLat, bool) {
	ξ, η := (p.Y+m.y0)/m.ka, p.X/m.ka
	dξ, dη := waves(&m.beta, ξ, η)
	ξ, η = ξ-dξ, η-dη
	if !(math.Abs(ξ) <= math.Pi) || !(math.Abs(η) < 20) { // 20: 4e-9 rad from infinity
		return grid.LonLat{}, false
	}
	sin, cos := math.Sincos(ξ)
	sh := math.Sinh(η)
	λ := math.Atan2(sh, cos)
	τ := m.conf.tanφ(sin / math.Hypot(sh, cos))
	return grid.LonLat{Lon: around(m.origin.Lon, λ), Lat: math.Atan(τ) / radian}, true
}

func (m *TransverseMercator) String() string {
	return "transverse Mercator, meridian " + Longitude(m.origin.Lon)
}
