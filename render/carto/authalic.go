package carto

import "math"

// authalic converts between geographic latitude φ and authalic latitude β,
// the latitude on a sphere of equal area that bounds an equal area:
// sin β = q(φ)/q(90°) (Snyder 1987, eq. 3-11). Both ways are sine series,
// β = φ + Σ cₖ sin 2kφ and φ = β + Σ dₖ sin 2kβ, which stay exact near the
// poles, where the closed form loses half its digits.
type authalic struct {
	qp      float64 // q at the pole
	forward sineSeries
	inverse sineSeries
}

// terms is the length of the series: the first term left out is of the order
// of n⁷, 4e-20 on the earth.
const terms = 6

// sineSeries holds the coefficients of sin 2x, sin 4x, …
type sineSeries [terms]float64

// at returns x + Σ cₖ sin 2kx by Clenshaw's recurrence.
func (c *sineSeries) at(x float64) float64 {
	sin, cos := math.Sincos(x)
	s2, c2 := 2*sin*cos, 2*(cos-sin)*(cos+sin)
	b5 := c[4] + float64(c2*c[5])
	b4 := c[3] + float64(c2*b5) - c[5]
	b3 := c[2] + float64(c2*b4) - b5
	b2 := c[1] + float64(c2*b3) - b4
	b1 := c[0] + float64(c2*b2) - b3
	return x + float64(b1*s2)
}

// newAuthalic fits both series to the closed form at equally spaced
// latitudes. For a smooth odd periodic function the discrete sum is exact up
// to terms as small as the ones left out.
func newAuthalic(e Ellipsoid) authalic {
	a := authalic{qp: e.q(math.Pi / 2)}
	if e.e2() == 0 {
		return a
	}
	β := func(φ float64) float64 { return math.Asin(e.q(φ) / a.qp) }
	a.forward = fitSines(func(φ float64) float64 { return β(φ) - φ })
	a.inverse = fitSines(func(want float64) float64 {
		φ := want
		for range 60 { // the gap shrinks at least a hundredfold each time
			step := want - β(φ)
			φ += step
			if math.Abs(step) < 1e-16 {
				break
			}
		}
		return φ - want
	})
	return a
}

// fitSines returns the coefficients of sin 2kx in f, given on (0, π/2) and
// odd about both ends.
func fitSines(f func(float64) float64) sineSeries {
	const samples = 24
	var c sineSeries
	for j := range samples {
		x := (float64(j) + 0.5) * math.Pi / 2 / samples
		v := f(x)
		for k := range c {
			c[k] += float64(v*math.Sin(2*float64(k+1)*x)) * 2 / samples
		}
	}
	return c
}

// latitude returns φ for a value of q. ok is false beyond the poles.
func (a *authalic) latitude(q float64) (φ float64, ok bool) {
	s := q / a.qp
	const tol = 1e-12 // a rounding of the pole itself
	if math.Abs(s) > 1+tol || math.IsNaN(s) {
		return 0, false
	}
	return a.inverse.at(math.Asin(max(-1, min(1, s)))), true
}
