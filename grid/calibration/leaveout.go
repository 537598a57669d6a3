package calibration

import (
	"gonum.org/v1/gonum/mat"

	"weekband/grid/soil"
)

// left is what the model would have said of a station without it.
type left struct {
	Station
	predicted soil.Offset
	trust     Trust
}

// leaveOut predicts every station from those farther than km from it; with 0,
// from all others. Covariance and the covariance between the coefficients stay
// those of all stations. Stations that leave fewer than five others are
// skipped.
func (m *Model) leaveOut(km float64) []left {
	b := m.sys.projection()
	var bz mat.Dense
	bz.Mul(b, m.values)
	var out []left
	for i, st := range m.stations {
		hidden := []int{i}
		for j := range m.stations {
			if j != i && m.at[i].Distance(&m.at[j]) <= km {
				hidden = append(hidden, j)
			}
		}
		if len(m.stations)-len(hidden) < fewest {
			continue
		}
		if c, variance, ok := without(b, &bz, hidden); ok {
			own := coefficientsOf(st.Offset)
			for k := range c {
				c[k] = own[k] - c[k]
			}
			out = append(out, left{Station: st, predicted: c.offset(), trust: Trust{Near: 1, Variance: variance}})
		}
	}
	return out
}

// without returns the error, value less prediction, and the variance of the
// first of some hidden stations when all of them are predicted from the rest:
// (B_hh)⁻¹(Bz)_h and (B_hh)⁻¹ with B the projection.
func without(b, bz *mat.Dense, hidden []int) (c coefficients, variance float64, ok bool) {
	n := len(hidden)
	part, right := mat.NewSymDense(n, nil), mat.NewDense(n, terms, nil)
	for p, i := range hidden {
		right.SetRow(p, bz.RawRowView(i))
		for q := range p + 1 {
			part.SetSym(p, q, b.At(i, hidden[q]))
		}
	}
	var chol mat.Cholesky
	if !chol.Factorize(part) {
		return c, 0, false
	}
	var x, inverse mat.Dense
	unit := mat.NewDense(n, 1, nil)
	unit.Set(0, 0, 1)
	if chol.SolveTo(&x, right) != nil || chol.SolveTo(&inverse, unit) != nil {
		return c, 0, false
	}
	mat.Row(c[:], 0, &x)
	return c, inverse.At(0, 0), true
}
