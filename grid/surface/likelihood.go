package surface

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/optimize"

	"weekband/grid/abreast"
)

// The covariance is fitted to at most fitPlaces neighbourhoods, and to no more
// than take in every station about fitTimes.
const fitPlaces, fitTimes = 120, 4

// start is where the search for a covariance begins, and what a network of
// fewer stations than fewest is given: shares and lengths of temperature
// normals over land, as measured on a national network.
var start = Covariance{Nugget: 0.4, Sill: 1, RangeKm: 150, KmPerMetre: 0.15}

const fewest = 30

// fitCovariance finds nugget, range and weight of height by restricted maximum
// likelihood (Patterson & Thompson 1971), the sum over months and over
// neighbourhoods spread over the network, each with its own sill. The sill of
// the result is 1.
func (n *network) fitCovariance() (Covariance, error) {
	if len(n.list) < fewest {
		return start, nil
	}
	places := 1 // every neighbourhood is the whole network
	if len(n.list) > n.k {
		places = min(fitPlaces, fitTimes*len(n.list)/n.k)
	}
	near := make([][]int, places)
	for i := range near {
		near[i], _ = n.index.nearest(n.places[i*len(n.list)/places], n.k, -1)
	}
	parts := make([]float64, places)
	problem := optimize.Problem{Func: func(x []float64) float64 {
		cov, far := covarianceAt(x)
		abreast.EachWith(places, func(i int, s *solver) {
			s.frame = frameAt(n.list[near[i][0]].At)
			s.gather(n, near[i], &cov)
			s.build(cov, s.data, n.precision())
			parts[i] = s.misfitScore()
		})
		sum := 0.0
		for _, p := range parts {
			sum += p
		}
		return sum/float64(places) + far
	}}
	x := []float64{math.Log(start.Nugget), math.Log(start.RangeKm), math.Log(start.KmPerMetre)}
	if n.land == nil {
		x = x[:2]
	}
	settings := &optimize.Settings{
		FuncEvaluations: 200,
		Converger:       &optimize.FunctionConverge{Absolute: 1e-3, Iterations: 12},
	}
	r, err := optimize.Minimize(problem, x, settings, &optimize.NelderMead{SimplexSize: 0.5})
	if err != nil {
		return start, fmt.Errorf("fitting the covariance: %w", err)
	}
	cov, _ := covarianceAt(r.X)
	return cov, nil
}

// covarianceAt turns the logarithms the search works on into a covariance.
// Outside of believable bounds it stays at the bound, and far grows.
func covarianceAt(x []float64) (cov Covariance, far float64) {
	bound := func(v, low, high float64) float64 {
		in := min(max(v, math.Log(low)), math.Log(high))
		far += float64((v - in) * (v - in))
		return math.Exp(in)
	}
	cov = Covariance{Sill: 1, Nugget: bound(x[0], 0.02, 20), RangeKm: bound(x[1], 10, 2000)}
	if len(x) > 2 {
		cov.KmPerMetre = bound(x[2], 0.001, 1)
	}
	return cov, far
}

// misfitScore returns minus twice the restricted log likelihood of a
// neighbourhood with the sills that suit its months best, averaged over the
// months, up to a constant.
func (s *system) misfitScore() float64 {
	freedom := float64(len(s.points) - free)
	if freedom <= 0 {
		return 0
	}
	sum := s.chol.logDeterminant() + s.inner.logDeterminant()
	for _, q := range s.misfit {
		sum += freedom * math.Log(max(q, 1e-12)/freedom) / months // constant values have no misfit
	}
	return sum
}
