package calibration

import (
	"math"
	"slices"

	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/series"
	"weekband/grid/soil"
	"weekband/grid/spread"
	"weekband/grid/units"
)

// buffer is how far around a station others are left out too for the harder of
// the two checks, in km.
const buffer = 250

// Method is a way to foretell the soil of a station.
type Method uint8

const (
	AirAsSoil  Method = iota // soil is as warm as air
	OneOffset                // lagged air and soil.DefaultOffset
	LeftOut                  // this package, from all other stations
	FarLeftOut               // this package, from the stations 250 km away and farther
	OwnOffset                // the five terms fitted at the station itself
)

// Methods lists all methods in their order.
var Methods = [...]Method{AirAsSoil, OneOffset, LeftOut, FarLeftOut, OwnOffset}

// String names a method in a report.
func (m Method) String() string {
	return [...]string{"air taken as soil", "lagged air, one offset", "stations, itself left out", "stations, 250 km left out", "offset of its own"}[m]
}

// Score sums up the errors of the typical crossing, foretold less measured, in
// days, over the stations whose own crossing has a day to tell.
type Score struct {
	Depth   units.Metres
	Trigger crossing.Trigger
	Method  Method
	N       int // stations
	Missed  int // foretold to have no crossing; they count in no other figure
	Bias    float64
	MAE     float64
	Median  float64 // of the absolute error
	RMSE    float64
	P90     float64 // 90 % of the absolute errors are smaller
	// Within holds the shares of the errors within one and two standard
	// errors; 0.68 and 0.95 if the errors were normal. Only for LeftOut.
	Within [2]float64
	// Years is how many single years the stations have, and Held the share of
	// them that crossed from the early to the late day foretold for a station
	// left out: with the year-to-year deviations of its own monthly means of
	// air, and with spread.Default. 0.8 if all is well. Only for LeftOut.
	Years       int
	Held        float64
	HeldDefault float64
}

// Judge foretells what was learned at every station from the others, and
// returns a Score for each depth, trigger and method.
func Judge(m *Model, learned []Truth, depths []units.Metres, triggers []crossing.Trigger) []Score {
	j := judge{model: m, depths: depths, left: m.byID(0), far: m.byID(buffer)}
	var out []Score
	for k := range depths {
		for _, trigger := range triggers {
			for _, method := range Methods {
				out = append(out, j.score(learned, k, trigger, method))
			}
		}
	}
	return out
}

func (m *Model) byID(km float64) map[string]left {
	out := map[string]left{}
	for _, l := range m.leaveOut(km) {
		out[l.ID] = l
	}
	return out
}

type judge struct {
	model     *Model
	depths    []units.Metres
	left, far map[string]left
}

// foretell writes the year a method gives at a station and depth; trust is that
// of the offset. ok is false when the method cannot tell.
func (j *judge) foretell(t *Truth, k int, method Method, year *curve.Year) (trust Trust, ok bool) {
	m := soil.Default
	switch method {
	case AirAsSoil:
		*year = t.Air
		return trust, true
	case LeftOut, FarLeftOut:
		from := j.left
		if method == FarLeftOut {
			from = j.far
		}
		l, ok := from[t.ID]
		if !ok {
			return trust, false
		}
		m.Offset, trust = l.predicted, l.trust
	case OwnOffset:
		m.Offset = t.Offset
	}
	m.Apply(&t.Air, year)
	to := soil.NewConduction(soil.OffsetDepth, j.depths[k], soil.DefaultDiffusivity)
	to.Apply(year)
	return trust, true
}

// crossings returns what a station measured and what a method foretells; ok is
// false when the method cannot tell or the station has no day.
func (j *judge) crossings(t *Truth, k int, trigger crossing.Trigger, method Method) (measured, foretold crossing.Crossing, trust Trust, ok bool) {
	if !t.HasSoil[k] {
		return measured, foretold, trust, false
	}
	measured = crossing.Find(&t.Soil[k], trigger)
	var year curve.Year
	trust, ok = j.foretell(t, k, method, &year)
	if !ok || !measured.Reason.HasDay() {
		return measured, foretold, trust, false
	}
	return measured, crossing.Find(&year, trigger), trust, true
}

// score judges one method at one depth and trigger.
func (j *judge) score(learned []Truth, k int, trigger crossing.Trigger, method Method) Score {
	s := Score{Depth: j.depths[k], Trigger: trigger, Method: method}
	var sizes []float64
	var held, heldDefault int
	for i := range learned {
		t := &learned[i]
		measured, foretold, trust, ok := j.crossings(t, k, trigger, method)
		if !ok {
			continue
		}
		if !foretold.Reason.Crosses() {
			s.Missed++
			continue
		}
		e := measured.Day.Apart(foretold.Day)
		s.N++
		s.Bias += e
		s.RMSE += float64(e * e)
		sizes = append(sizes, math.Abs(e))
		if method != LeftOut {
			continue
		}
		stdErr := float64(j.model.StdErr(trust, foretold.Day)) / foretold.Slope
		for w := range s.Within {
			if math.Abs(e) <= float64(w+1)*stdErr {
				s.Within[w]++
			}
		}
		if !foretold.Reason.HasDay() {
			continue
		}
		own, usual, years := t.held(k, trigger, &foretold, stdErr)
		held, heldDefault = held+own, heldDefault+usual
		s.Years += years
	}
	s.sum(sizes)
	if s.Years > 0 {
		s.Held, s.HeldDefault = float64(held)/float64(s.Years), float64(heldDefault)/float64(s.Years)
	}
	return s
}

// sum turns sums into means.
func (s *Score) sum(sizes []float64) {
	if s.N == 0 {
		return
	}
	n := float64(s.N)
	s.Bias, s.RMSE = s.Bias/n, math.Sqrt(s.RMSE/n)
	for w := range s.Within {
		s.Within[w] /= n
	}
	slices.Sort(sizes)
	for _, v := range sizes {
		s.MAE += v / n
	}
	// Hyndman and Fan's type 7.
	s.Median, s.P90 = series.Between(sizes, float64(0.5*(n-1))), series.Between(sizes, float64(0.9*(n-1)))
}

// held counts a station's years, and those that crossed from the early to the
// late day foretold for it with its own spread and with the usual one.
func (t *Truth) held(k int, trigger crossing.Trigger, foretold *crossing.Crossing, stdErr float64) (own, usual, years int) {
	yearly := t.series.Yearly(&t.series.Soil[k], &t.soilFits[k], trigger, series.Trailing7)
	sd, _ := t.series.MonthSD(&t.series.Air)
	var months [12]units.Celsius
	for i, v := range sd {
		months[i] = units.Celsius(v)
	}
	deviation := curve.FromMonths(&months)
	by := func(days float64) float64 { return spread.EarlyBy(spread.Together(days, stdErr)) }
	ownBy := by(spread.FromSlope(units.Delta(max(deviation.At(foretold.Day), 0)), foretold.Slope))
	usualBy := by(spread.Default)
	for _, y := range yearly.Years {
		if y.Reason == crossing.NoData {
			continue
		}
		years++
		if y.Reason != crossing.Dated {
			continue
		}
		off := math.Abs(foretold.Day.Apart(y.Day))
		if off <= ownBy {
			own++
		}
		if off <= usualBy {
			usual++
		}
	}
	return own, usual, years
}
