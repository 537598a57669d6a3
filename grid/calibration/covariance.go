package calibration

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize"

	"weekband/grid"
)

// Covariance says how alike the offsets of two places are: exp(−h/RangeKm) at
// a distance h > 0, and 1 + Nugget for a place with itself, in units of the
// smooth part's variance.
type Covariance struct {
	RangeKm float64
	Nugget  float64
}

// usual is where the search for a covariance begins, and what a table of
// fewer stations than fitFrom is given: that of the table US, rounded.
var usual = Covariance{RangeKm: 500, Nugget: 0.33}

const fitFrom = 20

// String writes the covariance for people.
func (c Covariance) String() string {
	return fmt.Sprintf("exponential, range %.0f km, nugget %.2f of the sill", c.RangeKm, c.Nugget)
}

func (c Covariance) between(a, b *grid.Globe) float64 { return math.Exp(-a.Distance(b) / c.RangeKm) }

// matrix returns the covariances of places with each other.
func (c Covariance) matrix(at []grid.Globe) *mat.SymDense {
	k := mat.NewSymDense(len(at), nil)
	for i := range at {
		k.SetSym(i, i, 1+c.Nugget)
		for j := range i {
			k.SetSym(i, j, c.between(&at[i], &at[j]))
		}
	}
	return k
}

// fitCovariance finds range and nugget by restricted maximum likelihood
// (Patterson & Thompson 1971) of all coefficients together: their covariance
// is that over distance times one among themselves, which the data give.
func fitCovariance(at []grid.Globe, drift, values *mat.Dense) (Covariance, error) {
	if len(at) < fitFrom {
		return usual, nil
	}
	problem := optimize.Problem{Func: func(x []float64) float64 {
		cov, far := covarianceAt(x)
		s, err := solve(cov, at, drift, values)
		if err != nil {
			return math.Inf(1)
		}
		return s.misfit() + far
	}}
	x := []float64{math.Log(usual.RangeKm), math.Log(usual.Nugget)}
	settings := &optimize.Settings{
		FuncEvaluations: 200,
		Converger:       &optimize.FunctionConverge{Absolute: 1e-4, Iterations: 12},
	}
	r, err := optimize.Minimize(problem, x, settings, &optimize.NelderMead{SimplexSize: 0.5})
	if err != nil {
		return usual, fmt.Errorf("fitting the covariance of the offsets: %w", err)
	}
	cov, _ := covarianceAt(r.X)
	return cov, nil
}

// covarianceAt turns the logarithms the search works on into a covariance.
// Outside of believable bounds it stays at the bound, and far grows.
func covarianceAt(x []float64) (c Covariance, far float64) {
	bound := func(v, low, high float64) float64 {
		in := min(max(v, math.Log(low)), math.Log(high))
		far += float64(100 * (v - in) * (v - in))
		return math.Exp(in)
	}
	return Covariance{RangeKm: bound(x[0], 50, 3000), Nugget: bound(x[1], 0.02, 20)}, far
}
