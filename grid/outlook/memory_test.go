package outlook_test

import (
	"math"
	"testing"

	"weekband/grid/outlook"
	"weekband/grid/season"
)

// The covariance of daily departures against the two parts of the process.
// Leaving any one station out moves the correlations by less than 0.03.
func TestDeparturesForgetAsAssumed(t *testing.T) {
	list := stationsAt(t, spring)
	lags := []int{0, 2, 5, 10, 21, 42}
	sums, counts := make([][]float64, len(list)), make([][]float64, len(list))
	for i, s := range list {
		for _, lag := range lags {
			sum, n := s.products(lag)
			sums[i], counts[i] = append(sums[i], sum), append(counts[i], n)
		}
	}
	correlation := func(lag, but int) float64 {
		var sum, n [2]float64
		for i := range list {
			if i != but {
				sum[0], n[0] = sum[0]+sums[i][0], n[0]+counts[i][0]
				sum[1], n[1] = sum[1]+sums[i][lag], n[1]+counts[i][lag]
			}
		}
		return sum[1] / n[1] / (sum[0] / n[0])
	}
	for i, lag := range lags[1:] {
		all, days := correlation(i+1, -1), float64(lag)
		process := outlook.WeatherShare*math.Exp(-days/outlook.WeatherDays) + (1-outlook.WeatherShare)*math.Exp(-days/outlook.SeasonDays)
		t.Logf("after %v days %.3f, the process has %.3f", lag, all, process)
		if math.Abs(all-process) > 0.06 {
			t.Errorf("departures correlate by %.3f after %v days, the process has %.3f", all, lag, process)
		}
		for but := range list {
			if r := correlation(i+1, but); math.Abs(r-all) > 0.03 {
				t.Errorf("without station %d the correlation after %v days is %.3f for %.3f", but, lag, r, all)
			}
		}
	}
}

// products sums the products of departures so many days apart, the later of
// them in the 8 weeks before the typical day.
func (s *station) products(lag int) (sum, n float64) {
	for _, y := range s.crossings {
		for at := max(int(y.typical)-56, lag); at <= int(y.typical) && at < len(s.daily); at++ {
			if product := s.departure(at) * s.departure(at-lag); !math.IsNaN(product) {
				sum += product
				n++
			}
		}
	}
	return sum, n
}

// departure is that of a day of the series, K; NaN is missing.
func (s *station) departure(at int) float64 {
	i := dayOfYear(at)
	return s.daily[at] - (s.normal[i]+s.normal[(i+1)%season.YearDays])/2
}
