package surface

import (
	"math"
	"testing"
)

// The seven samples of Isaaks & Srivastava 1989, An Introduction to Applied
// Geostatistics, chapter 12: x, y, V; the estimate is wanted at (65, 137) with
// C(h) = 10·exp(−0.3 h). The data and the printed results are from memory; all
// results were worked out again in double precision.
var samples = [][3]float64{
	{61, 139, 477}, {63, 140, 696}, {64, 129, 227}, {68, 128, 646}, {71, 140, 606}, {73, 141, 791}, {75, 128, 783},
}

// plane2D builds a system in a plane with a drift of the first terms of 1, x, y.
func plane2D(cov Covariance, samples [][3]float64, terms int) *system {
	var d data
	for _, p := range samples {
		d.points = append(d.points, point{p[0], p[1]})
		d.drift = append(d.drift, [6]float64{1, p[0], p[1]})
		d.values = append(d.values, [months]float64{p[2]})
		d.trust = append(d.trust, 1)
	}
	s := new(system)
	s.build(cov, d, make([]float64, terms))
	return s
}

func (s *system) ask(x, y float64) (estimate, variance float64) {
	var est [months]float64
	c := make([]float64, len(s.points))
	f := [terms]float64{1, x, y}
	s.estimate(&point{x, y}, &f, c, 1, &est)
	return est[0], s.variance(&f, c)
}

func TestOrdinaryKrigingOfIsaaksAndSrivastava(t *testing.T) {
	s := plane2D(Covariance{Sill: 1, RangeKm: 1 / 0.3}, samples, 1)
	est, variance := s.ask(65, 137)
	if math.Abs(est-592.7289) > 5e-5 {
		t.Errorf("estimate %.5f, want 592.7289 (the book prints 592.7)", est)
	}
	if math.Abs(10*variance-8.956053) > 5e-7 {
		t.Errorf("variance %.7f, want 8.956053 (the book prints 8.96)", 10*variance)
	}
	want := []float64{0.1729, 0.3178, 0.1287, 0.0864, 0.1511, 0.0572, 0.0858}
	for i, w := range weightsOf(s, samples, 65, 137) {
		if math.Abs(w-want[i]) > 5e-5 {
			t.Errorf("weight %d is %.5f, want %.4f", i+1, w, want[i])
		}
	}
}

func TestUniversalKrigingWithLinearDrift(t *testing.T) {
	s := plane2D(Covariance{Sill: 1, RangeKm: 1 / 0.3}, samples, 3)
	est, variance := s.ask(65, 137)
	if math.Abs(est-567.6621) > 5e-5 || math.Abs(10*variance-9.038283) > 5e-7 {
		t.Errorf("estimate %.5f, variance %.7f; want 567.6621 and 9.038283", est, 10*variance)
	}
	want := []float64{0.219091, 0.342754, 0.147274, 0.073534, 0.151593, 0.039273, 0.026480}
	for i, w := range weightsOf(s, samples, 65, 137) {
		if math.Abs(w-want[i]) > 5e-7 {
			t.Errorf("weight %d is %.7f, want %.6f", i+1, w, want[i])
		}
	}
}

// weightsOf finds each sample's weight as what the estimate becomes when that
// sample alone is 1 and the others are 0.
func weightsOf(s *system, samples [][3]float64, x, y float64) (w []float64) {
	for i := range samples {
		unit := make([][3]float64, len(samples))
		for j, p := range samples {
			unit[j] = [3]float64{p[0], p[1], 0}
		}
		unit[i][2] = 1
		est, _ := plane2D(s.cov, unit, s.drift).ask(x, y)
		w = append(w, est)
	}
	return w
}

// Two points, 10 at 0 and 20 at 1, C = exp(−h): worked by hand.
func TestTwoPoints(t *testing.T) {
	s := plane2D(Covariance{Sill: 1, RangeKm: 1}, [][3]float64{{0, 0, 10}, {1, 0, 20}}, 1)
	for _, c := range []struct{ x, est, variance float64 }{
		{0.5, 15, 0.470878}, {0.25, 12.576141, 0.358497}, {0, 10, 0},
	} {
		est, variance := s.ask(c.x, 0)
		if math.Abs(est-c.est) > 5e-7 || math.Abs(variance-c.variance) > 5e-7 {
			t.Errorf("at %v: %.6f, variance %.6f; want %v and %v", c.x, est, variance, c.est, c.variance)
		}
	}
}

// Universal kriging with a linear drift returns a plane exactly, whatever the
// covariance: z = 3 + 2x − y is 3.6 at (0.4, 0.2).
func TestPlaneIsExact(t *testing.T) {
	var p [][3]float64
	for _, at := range [][2]float64{{0, 0}, {1, 0}, {0, 1}, {1, 1}, {0.5, 0.3}, {0.2, 0.9}} {
		p = append(p, [3]float64{at[0], at[1], 3 + 2*at[0] - at[1]})
	}
	for _, nugget := range []float64{0, 0.5} {
		s := plane2D(Covariance{Sill: 1, Nugget: nugget, RangeKm: 2}, p, 3)
		if est, _ := s.ask(0.4, 0.2); math.Abs(est-3.6) > 1e-10 {
			t.Errorf("nugget %v: %v, want 3.6", nugget, est)
		}
	}
}

// The spherical model that gstat fits to the logarithm of zinc in the meuse
// data: nugget 0.05066243, partial sill 0.59060780, range 897.0209 m (its
// tests/stars.Rout.save); values of γ worked out from the formula.
func TestSphericalModel(t *testing.T) {
	c := Covariance{Shape: Spherical, Nugget: 0.05066243, Sill: 0.59060780, RangeKm: 897.0209}
	for h, want := range map[float64]float64{0: 0, 100: 0.14901484, 500: 0.49332888, 897.0209: 0.64127023, 2000: 0.64127023} {
		if got := c.Gamma(h); math.Abs(got-want) > 5e-9 {
			t.Errorf("γ(%v) = %.8f, want %.8f", h, got, want)
		}
	}
}
