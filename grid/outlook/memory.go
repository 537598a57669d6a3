package outlook

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// How soil departs from normal: the covariance of daily departures in the 8
// weeks before the typical 55 °F at 10 cm, 63 stations. It falls to 0.92,
// 0.78, 0.54, 0.37, 0.24, 0.14 of itself after 1, 2, 5, 10, 21, 42 days.
const (
	// WeatherShare is the weather's share of the variance; the season has
	// the rest.
	WeatherShare = 0.6
	// WeatherDays and SeasonDays are the times in which the two parts fall
	// to 1/e.
	WeatherDays, SeasonDays = 5.0, 50.0
	// DailyOverWeekly is how much larger the standard deviation of the
	// departure of one day is than that of spread times slope: the spread is
	// that of a 7-day mean's crossing.
	DailyOverWeekly = 1.2
	// ThermometerError is the standard error of a reading in kelvins: that
	// of a hand thermometer and of how it is placed.
	ThermometerError = 0.5
)

// memory is what the readings tell about the departure at other moments: its
// mean and its explained variance in a Gaussian process.
type memory struct {
	weather, season float64 // variances of the two parts, K²
	moments         []float64
	factor          mat.Cholesky // of the readings' covariance
	weights         []float64    // of the readings' covariances with a moment, 1/K
}

// remember weighs readings by their moments in days and departures in
// kelvins. The slope in K/d turns the place's days into kelvins.
func remember(p *Place, slope float64, moments, departures []float64) *memory {
	soil, typical := DailyOverWeekly*p.Spread*slope, p.Error*slope
	m := &memory{
		weather: WeatherShare * soil * soil,
		season:  float64((1-WeatherShare)*soil*soil) + float64(typical*typical),
		moments: moments,
	}
	n := len(moments)
	cov := mat.NewSymDense(n, nil)
	for i := range n {
		for j := range i {
			cov.SetSym(i, j, m.covariance(moments[i]-moments[j]))
		}
		cov.SetSym(i, i, m.covariance(0)+ThermometerError*ThermometerError)
	}
	if !m.factor.Factorize(cov) {
		panic("outlook: the covariance of readings is not positive definite")
	}
	m.weights = m.solve(departures)
	return m
}

// covariance returns that of the departures at two moments so many days
// apart, K².
func (m *memory) covariance(days float64) float64 {
	days = math.Abs(days)
	return float64(m.weather*math.Exp(-days/WeatherDays)) + float64(m.season*math.Exp(-days/SeasonDays))
}

// expected returns the mean departure at a moment, K.
func (m *memory) expected(t float64) float64 {
	sum := 0.0
	for i, at := range m.moments {
		sum += float64(m.weights[i] * m.covariance(t-at))
	}
	return sum
}

// explained returns the share of the variance at a moment that the readings
// take away, in [0, 1).
func (m *memory) explained(t float64) float64 {
	k := make([]float64, len(m.moments))
	for i, at := range m.moments {
		k[i] = m.covariance(t - at)
	}
	sum := 0.0
	for i, w := range m.solve(k) {
		sum += float64(w * k[i])
	}
	if sum == 0 {
		return 0
	}
	return sum / m.covariance(0)
}

func (m *memory) solve(b []float64) []float64 {
	var x mat.VecDense
	if err := m.factor.SolveVecTo(&x, mat.NewVecDense(len(b), b)); err != nil {
		panic("outlook: " + err.Error()) // the thermometer's error bounds the condition
	}
	return x.RawVector().Data
}
