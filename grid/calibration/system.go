package calibration

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mat"

	"weekband/grid"
)

// system is universal kriging of all coefficients from all stations. With K
// the covariance of the stations, F their drift and Z their coefficients,
//
//	β = (FᵀK⁻¹F)⁻¹ FᵀK⁻¹Z,  α = K⁻¹(Z − Fβ),  Σ = (Z − Fβ)ᵀα/(n − p)
//
// A place with drift f and covariances c to the stations has the estimate
// fᵀβ + cᵀα, and the error covariance Σ·v with
//
//	v = 1 + nugget − cᵀK⁻¹c + dᵀ(FᵀK⁻¹F)⁻¹d,  d = f − FᵀK⁻¹c
//
// (Cressie 1993, Statistics for Spatial Data, 3.4.5, in the dual form).
type system struct {
	n, p    int
	inverse *mat.Dense    // K⁻¹
	kf      *mat.Dense    // K⁻¹F, n × p
	alpha   *mat.Dense    // n × terms
	beta    *mat.Dense    // p × terms
	inner   *mat.Dense    // (FᵀK⁻¹F)⁻¹
	sigma   *mat.SymDense // Σ
	logDets float64       // ln|K| + ln|FᵀK⁻¹F|
}

var errAlike = errors.New("the stations lie too close together to tell offsets apart")

func solve(cov Covariance, at []grid.Globe, drift, values *mat.Dense) (*system, error) {
	s := &system{}
	s.n, s.p = drift.Dims()
	var chol, inner mat.Cholesky
	if !chol.Factorize(cov.matrix(at)) {
		return nil, errAlike
	}
	var inverse mat.SymDense
	if err := chol.InverseTo(&inverse); err != nil {
		return nil, errAlike
	}
	s.inverse = mat.DenseCopyOf(&inverse)
	s.kf = &mat.Dense{}
	s.kf.Mul(s.inverse, drift)
	var ff mat.Dense
	ff.Mul(drift.T(), s.kf)
	if !inner.Factorize(mat.NewSymDense(s.p, symmetric(&ff))) {
		return nil, errAlike
	}
	var innerInverse mat.SymDense
	if err := inner.InverseTo(&innerInverse); err != nil {
		return nil, errAlike
	}
	s.inner = mat.DenseCopyOf(&innerInverse)
	s.beta, s.alpha = &mat.Dense{}, &mat.Dense{}
	var fz, fb, left, spread mat.Dense
	fz.Mul(s.kf.T(), values)
	s.beta.Mul(s.inner, &fz)
	fb.Mul(drift, s.beta)
	left.Sub(values, &fb)
	s.alpha.Mul(s.inverse, &left)
	spread.Mul(left.T(), s.alpha)
	spread.Scale(1/float64(s.n-s.p), &spread)
	s.sigma = mat.NewSymDense(terms, symmetric(&spread))
	s.logDets = chol.LogDet() + inner.LogDet()
	return s, nil
}

// symmetric returns the elements of a square matrix with rounding between its
// two halves evened out.
func symmetric(m *mat.Dense) []float64 {
	n, _ := m.Dims()
	out := make([]float64, n*n)
	for i := range n {
		for j := range n {
			out[i*n+j] = (m.At(i, j) + m.At(j, i)) / 2
		}
	}
	return out
}

// misfit is −2 ln of the restricted likelihood, but for a constant.
func (s *system) misfit() float64 {
	var chol mat.Cholesky
	if !chol.Factorize(s.sigma) {
		return math.Inf(1)
	}
	return float64(float64(s.n-s.p)*chol.LogDet()) + float64(terms*s.logDets)
}

// projection returns K⁻¹ − K⁻¹F(FᵀK⁻¹F)⁻¹FᵀK⁻¹, from which every prediction of
// a station from the others follows (Dubrule 1983, Mathematical Geology
// 15:687).
func (s *system) projection() *mat.Dense {
	var fi, part, b mat.Dense
	fi.Mul(s.kf, s.inner)
	part.Mul(&fi, s.kf.T())
	b.Sub(s.inverse, &part)
	return &b
}
