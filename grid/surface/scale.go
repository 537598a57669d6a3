package surface

import (
	"math"

	"weekband/grid/abreast"
)

// sillTrust is how many stations the sill of the whole network counts for
// beside the stations of a neighbourhood.
const sillTrust = 20

// scale returns the sills of the months in a neighbourhood, K²: the misfit of
// its own stations, which have so much trust together, tempered by the sill of
// the network. Mountains have a larger one than plains.
func (m *Model) scale(misfit *[months]float64, trust float64) (sill [months]float64) {
	n := max(0, trust-free)
	for q := range sill {
		sill[q] = (float64(sillTrust*m.sill[q]) + misfit[q]) / (sillTrust + n)
	}
	return sill
}

// stdError is the standard error for a sill and a variance in its units.
// Rounding may leave a variance just below 0 at a station without a nugget.
func stdError(sill, unit float64) float64 { return math.Sqrt(sill * max(unit, 0)) }

// left is the prediction of one station from the others.
type left struct {
	err    [months]float64 // prediction less value, K
	unit   float64         // error variance in units of the sill
	misfit [months]float64
	trust  float64
}

// leaveOut predicts every station from the others.
func (m *Model) leaveOut() []left {
	out := make([]left, len(m.net.list))
	abreast.EachWith(len(out), func(i int, s *solver) {
		n := &m.net
		s.buildAt(n, n.list[i].At, i, m.cov)
		est, unit := s.predict(n, &n.places[i], &n.covers[i])
		var known [months]float64
		n.slopes.trend(&n.covers[i], &known)
		for q := range est {
			out[i].err[q] = est[q] - known[q] - n.z[i][q]
		}
		out[i].unit, out[i].misfit, out[i].trust = unit, s.misfit, s.trust
	})
	return out
}

// setSill finds the months' sills from the errors of predicting stations.
func (m *Model) setSill(all []left) {
	m.sill = [months]float64{}
	for i := range all {
		for q, e := range all[i].err {
			m.sill[q] += e * e / all[i].unit / float64(len(all))
		}
	}
	for q := range m.sill {
		m.sill[q] = max(m.sill[q], 1e-8) // values without any misfit, such as a plane
	}
}

// score returns the errors in units of their standard errors.
func (m *Model) score(l *left) (z [months]float64) {
	for q, sill := range m.scale(&l.misfit, l.trust) {
		z[q] = l.err[q] / stdError(sill, l.unit)
	}
	return z
}
