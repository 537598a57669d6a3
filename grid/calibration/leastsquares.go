package calibration

import (
	"gonum.org/v1/gonum/mat"

	"weekband/grid/season"
)

// leastSquares fits the five terms to a value a day with weights, which must
// not all be 0.
func leastSquares(values, weights *[season.YearDays]float64) (c coefficients) {
	normal := mat.NewSymDense(terms, nil)
	right := mat.NewVecDense(terms, nil)
	for i, w := range weights {
		b := &basis[i]
		for p := range terms {
			right.SetVec(p, right.AtVec(p)+float64(w*b[p]*values[i]))
			for q := p; q < terms; q++ {
				normal.SetSym(p, q, normal.At(p, q)+float64(w*b[p]*b[q]))
			}
		}
	}
	var chol mat.Cholesky
	if !chol.Factorize(normal) {
		return c // fewer days than terms: no offset can be told
	}
	x := mat.NewVecDense(terms, c[:])
	if err := chol.SolveVecTo(x, right); err != nil {
		return coefficients{}
	}
	return c
}
