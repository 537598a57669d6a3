package surface

import "math"

// months is how many right-hand sides a system has.
const months = 12

// terms bounds the drift: 1, east, north, height, rise, coast.
const terms = 6

// point is a place in the space where the covariance measures distance: three
// coordinates on the globe and one for height, all in km.
type point [4]float64

func (p *point) distance(q *point) float64 {
	a, b, c, d := p[0]-q[0], p[1]-q[1], p[2]-q[2], p[3]-q[3]
	return math.Sqrt(float64(a*a) + float64(b*b) + float64(c*c) + float64(d*d))
}

// system is universal kriging from one set of places, solved once: any number
// of targets can be asked of it. Everything is in units of the sill.
//
// With C the covariance of the places (nugget on the diagonal), F the drift at
// the places and P the precision of what was known of the drift beforehand,
//
//	β = (FᵀC⁻¹F + P)⁻¹ FᵀC⁻¹z,  α = C⁻¹(z − Fβ)
//
// and a target with drift f and covariances c to the places has the estimate
// fᵀβ + cᵀα and the error variance
//
//	1 + nugget − cᵀC⁻¹c + dᵀ(FᵀC⁻¹F + P)⁻¹d,  d = f − FᵀC⁻¹c
//
// (Cressie 1993, Statistics for Spatial Data, 3.4.5, in the dual form; with
// P = 0 the drift is free). All months share C and F, so they share all but β
// and α.
type system struct {
	cov    Covariance
	noise  float64
	points []point
	drift  int              // terms in use
	chol   factor           // of C
	inner  factor           // of FᵀC⁻¹F + P
	cf     [][terms]float64 // C⁻¹F
	alpha  []float64        // α, month after month
	beta   [terms][months]float64
	misfit [months]float64 // zᵀC⁻¹(z − Fβ): what the sill leaves to explain
	trust  float64         // sum over the places
	column []float64       // scratch of build
}

// data are the places a system is built from, one row a place.
type data struct {
	points []point
	drift  [][terms]float64
	values [][months]float64
	trust  []float64 // 1 for full trust to 0 for none, see taper
}

// build solves the system for places and the precisions of the drift terms.
// It reuses the memory of an earlier build, and keeps the points.
func (s *system) build(cov Covariance, d data, precision []float64) {
	points, f := d.points, d.drift
	n := len(points)
	s.cov, s.noise, s.points, s.drift = cov, cov.noise(), points, len(precision)
	s.room(n)
	for i := range points {
		row := s.chol.row(i)
		for j := range i {
			row[j] = cov.correlation(points[i].distance(&points[j]))
		}
		row[i] = (1 + s.noise) / max(d.trust[i], leastTrust)
	}
	s.chol.decompose()
	for q := range s.drift {
		for i := range n {
			s.column[i] = f[i][q]
		}
		s.solve()
		for i := range n {
			s.cf[i][q] = s.column[i]
		}
	}
	s.inner.n, s.inner.l = s.drift, s.inner.l[:packed(s.drift)]
	for p := range s.drift {
		row := s.inner.row(p)
		for q := range p + 1 {
			row[q] = 0
			for i := range n {
				row[q] += float64(f[i][p] * s.cf[i][q])
			}
		}
		row[p] += precision[p]
	}
	s.inner.decompose()
	s.trust = 0
	for _, t := range d.trust {
		s.trust += t
	}
	for m := range months {
		s.month(m, f, d.values)
	}
}

// room gives the slices their lengths.
func (s *system) room(n int) {
	if cap(s.column) < n {
		s.chol.l = make([]float64, packed(n))
		s.column = make([]float64, n)
		s.cf = make([][terms]float64, n)
		s.alpha = make([]float64, months*n)
	}
	if s.inner.l == nil {
		s.inner.l = make([]float64, packed(terms))
	}
	s.chol.n, s.chol.l = n, s.chol.l[:packed(n)]
	s.column, s.cf, s.alpha = s.column[:n], s.cf[:n], s.alpha[:months*n]
}

// solve turns the scratch column b into C⁻¹b.
func (s *system) solve() {
	s.chol.forward(s.column)
	s.chol.backward(s.column)
}

// month solves for one month's values.
func (s *system) month(m int, f [][terms]float64, z [][months]float64) {
	for i := range s.column {
		s.column[i] = z[i][m]
	}
	s.solve()
	var beta [terms]float64
	for q := range s.drift {
		for i := range s.column {
			beta[q] += float64(f[i][q] * s.column[i])
		}
	}
	s.inner.forward(beta[:])
	s.inner.backward(beta[:])
	s.misfit[m] = 0
	alpha := s.alphaOf(m)
	for i, v := range s.column {
		for q := range s.drift {
			v -= float64(s.cf[i][q] * beta[q])
		}
		alpha[i] = v
		s.misfit[m] += float64(z[i][m] * v)
	}
	for q := range s.drift {
		s.beta[q][m] = beta[q]
	}
}

// alphaOf returns α of a month.
func (s *system) alphaOf(m int) []float64 {
	n := len(s.points)
	return s.alpha[m*n : (m+1)*n]
}

// estimate adds weight times the estimates of all months at a target to sum,
// and leaves the target's correlations with the places in c.
func (s *system) estimate(at *point, f *[terms]float64, c []float64, weight float64, sum *[months]float64) {
	c = c[:len(s.points)]
	for i := range s.points {
		c[i] = s.cov.correlation(at.distance(&s.points[i]))
	}
	for m := range sum {
		v := dot(c, s.alphaOf(m))
		for q := range s.drift {
			v += float64(f[q] * s.beta[q][m])
		}
		sum[m] += float64(weight * v)
	}
}

// variance returns the error variance at a target, in units of the sill, with
// the nugget: of a thermometer there, not of the smooth surface. c holds its
// correlations and is overwritten. A target exactly at a place is still a new
// thermometer there.
func (s *system) variance(f *[terms]float64, c []float64) float64 {
	c = c[:len(s.points)]
	d := *f
	for i, ci := range c {
		cf := &s.cf[i]
		for q := range s.drift {
			d[q] -= float64(ci * cf[q])
		}
	}
	s.chol.forward(c)
	s.inner.forward(d[:])
	return 1 + s.noise - dot(c, c) + dot(d[:s.drift], d[:s.drift])
}
