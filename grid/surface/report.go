package surface

import (
	"fmt"
	"math"
	"strings"
	"time"

	"weekband/grid/units"
)

// Errors sums up predictions of stations from the others: prediction less
// value, K. All are 0 when N is.
type Errors struct {
	N    int     // values: stations × months
	MAE  float64 // mean absolute error
	Bias float64 // mean error
	RMS  float64 // root of the mean square
}

// Class is a group of stations and its errors.
type Class struct {
	Name string
	Errors
}

// Report tells how far a Model may be trusted.
type Report struct {
	Quantity   Quantity
	Used       int // stations
	Neighbours int
	Covariance Covariance // mean of the months
	Assumed    bool       // the covariance was not fitted: too few stations
	Slope      Slope      // mean of the months
	All        Errors
	Months     [12]Errors
	Heights    []Class // by elevation
	Coast      []Class // within 50 km of the sea and beyond; nil without land
	// Within holds the shares of the errors within one and two of their
	// standard errors; 0.68 and 0.95 if the errors were normal.
	Within   [2]float64
	Suspects []Suspect // the farthest out first
}

// coastalKm is how near the sea a station counts as coastal.
const coastalKm = 50

var heightClasses = []struct {
	name string
	to   float64 // m
}{{"below 200 m", 200}, {"200 to 500 m", 500}, {"500 to 1000 m", 1000}, {"1000 to 2000 m", 2000}, {"above 2000 m", math.Inf(1)}}

// tally adds up errors.
type tally struct{ n, abs, sum, square float64 }

func (t *tally) add(e float64) {
	t.n++
	t.abs += math.Abs(e)
	t.sum += e
	t.square += float64(e * e)
}

func (t *tally) errors() Errors {
	if t.n == 0 {
		return Errors{}
	}
	return Errors{N: int(t.n), MAE: t.abs / t.n, Bias: t.sum / t.n, RMS: math.Sqrt(t.square / t.n)}
}

// report sums up the predictions of all stations.
func (m *Model) report(all []left, suspects []Suspect, land *Land) *Report {
	r := &Report{
		Quantity: m.quantity, Used: len(all), Neighbours: m.net.k, Suspects: suspects,
		Covariance: m.meanCovariance(), Slope: m.meanSlope(),
	}
	var total tally
	var byMonth [months]tally
	byHeight, byCoast := make([]tally, len(heightClasses)), make([]tally, 2)
	for i := range all {
		st := &m.net.list[i]
		h := 0
		for st.Elevation >= heightClasses[h].to {
			h++
		}
		inland := 0
		if land != nil && math.Expm1(m.net.covers[i][2])*coastScale > coastalKm {
			inland = 1
		}
		for q, z := range m.score(&all[i]) {
			e := all[i].err[q]
			total.add(e)
			byMonth[q].add(e)
			byHeight[h].add(e)
			byCoast[inland].add(e)
			for w := range r.Within {
				if math.Abs(z) <= float64(w+1) {
					r.Within[w] += 1 / float64(months*len(all))
				}
			}
		}
	}
	r.All = total.errors()
	for q := range byMonth {
		r.Months[q] = byMonth[q].errors()
	}
	for h := range byHeight {
		r.Heights = append(r.Heights, Class{heightClasses[h].name, byHeight[h].errors()})
	}
	if land != nil {
		r.Coast = []Class{{"within 50 km of the sea", byCoast[0].errors()}, {"inland", byCoast[1].errors()}}
	}
	return r
}

// meanCovariance returns the covariance with the mean sill of the months.
func (m *Model) meanCovariance() Covariance {
	c := m.cov
	c.Sill = 0
	for _, sill := range m.sill {
		c.Sill += sill / months
	}
	c.Nugget *= c.Sill
	return c
}

// meanSlope returns the mean slopes of the months.
func (m *Model) meanSlope() (mean Slope) {
	for q := range months {
		s := m.Slope(q)
		mean.PerKm += s.PerKm / months
		mean.Rise += s.Rise / months
		mean.Coast += s.Coast / months
	}
	return mean
}

// String writes the report for people, several lines.
func (r *Report) String() string {
	var b strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	line("%v from %s, %d to an estimate", r.Quantity, units.Count(r.Used, "station"), min(r.Neighbours, r.Used))
	how := ""
	if r.Assumed {
		how = fmt.Sprintf(" (shape as usual: fewer than %d stations are too few to fit it)", fewest)
	}
	line("covariance: %v%s", r.Covariance, how)
	if r.Coast != nil {
		line("drift: %.2f K per km of height, rise %+.2f, coast %+.2f", r.Slope.PerKm, r.Slope.Rise, r.Slope.Coast)
	}
	line("each station predicted from the others: mean absolute error %.3f K, bias %+.3f K, root mean square %.3f K", r.All.MAE, r.All.Bias, r.All.RMS)
	line("within one standard error %.0f %%, within two %.0f %%", 100*r.Within[0], 100*r.Within[1])
	for q, e := range r.Months {
		line("  %-24s %.3f K, bias %+.3f K", time.Month(q+1), e.MAE, e.Bias)
	}
	for _, c := range append(append([]Class{}, r.Heights...), r.Coast...) {
		if c.N > 0 {
			line("  %-24s %.3f K, bias %+.3f K, %s", c.Name, c.MAE, c.Bias, units.Count(c.N/months, "station"))
		}
	}
	for _, s := range r.Suspects {
		line("  %v", s)
	}
	return b.String()
}

// String tells what is wrong with the station.
func (s Suspect) String() string {
	text := fmt.Sprintf("%s %s (%.4f, %.4f, %.0f m): neighbours say %+.1f K in %v, %.1f standard errors",
		s.Station.ID, s.Station.Name, s.Station.At.Lat, s.Station.At.Lon, s.Station.Elevation, s.Error, time.Month(s.Worst+1), math.Abs(s.Score))
	if math.Abs(s.AboveTerrain) > HeightBound {
		where := "above the highest"
		if s.AboveTerrain < 0 {
			where = "below the lowest"
		}
		text += fmt.Sprintf("; %.0f m %s terrain within %d km", math.Abs(s.AboveTerrain), where, floorKm)
	}
	if s.LeftOut {
		text += "; left out"
	}
	return text
}
