package carto

import "math"

// conformal converts between tan φ and tan χ, the tangent of the conformal
// latitude, by Karney 2011, "Transverse Mercator with an accuracy of a few
// nanometers", J. Geodesy 85:475, eqs. 7–9 and 19–21.
type conformal struct{ e, e2 float64 }

func newConformal(e Ellipsoid) conformal { return conformal{e: math.Sqrt(e.e2()), e2: e.e2()} }

// tanχ returns the tangent of the conformal latitude for τ = tan φ.
func (c conformal) tanχ(τ float64) float64 {
	h := math.Hypot(1, τ)
	σ := math.Sinh(c.e * math.Atanh(c.e*τ/h))
	return float64(τ*math.Hypot(1, σ)) - float64(σ*h)
}

// tanφ returns τ = tan φ for the tangent of the conformal latitude, by
// Newton's method; two rounds reach full precision on the earth.
func (c conformal) tanφ(tanχ float64) float64 {
	τ := tanχ / (1 - c.e2)
	for range 6 {
		t := c.tanχ(τ)
		δ := (tanχ - t) / math.Hypot(1, t) * (1 + float64((1-c.e2)*τ*τ)) / ((1 - c.e2) * math.Hypot(1, τ))
		τ += δ
		if math.Abs(δ) < 1e-15*math.Hypot(1, τ) {
			break
		}
	}
	return τ
}
