package outlook_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/outlook"
	"weekband/grid/season"
	"weekband/grid/units"
)

var spring = crossing.Trigger{Level: 115.0 / 9, Direction: crossing.Warming} // 55 °F

// trial is a reading of one year and what came of it. Days count from the
// typical day that the reader is told.
type trial struct {
	station  int
	place    outlook.Place
	typical  crossing.Crossing // of the place's normal
	reading  outlook.Reading
	at       float64 // of the reading
	happened float64 // of the year's crossing
	past     bool    // whether the reading is at or past the level
}

// trials takes one reading so many days before the typical day in each year
// of each station. The reader's normal is the station's own, wrong by a
// normal error of the given standard deviation in kelvins that stays.
func trials(list []*station, lead int, wrong float64) []trial {
	return trialsRead(list, lead, wrong, outlook.ThermometerError)
}

// trialsRead is trials with another error of the reading, K.
func trialsRead(list []*station, lead int, wrong, readingError float64) []trial {
	var all []trial
	offsets := rand.New(rand.NewPCG(7, 7)) // the same errors at every lead
	for n, s := range list {
		place := outlook.Place{Normal: new(curve.Year), Trigger: s.trigger, Spread: s.spread}
		offset := offsets.NormFloat64() * wrong
		for i, v := range s.normal {
			place.Normal[i] = v + offset
		}
		if wrong > 0 {
			place.Error = 5
		}
		typical := crossing.Find(place.Normal, s.trigger)
		if typical.Reason != crossing.Dated {
			continue
		}
		moved := math.Mod(float64(typical.Day-s.typical.Day)+547.5, season.YearDays) - 182.5
		for _, y := range s.crossings {
			told := y.typical + moved
			at := int(told) - lead
			noise := rand.New(rand.NewPCG(uint64(n), uint64(at))).NormFloat64() * readingError
			if at < 0 || at >= len(s.daily) || math.IsNaN(s.daily[at]) {
				continue
			}
			tr := trial{station: n, place: place, typical: typical, at: float64(at) + 0.5 - told, happened: y.happened - told}
			tr.reading = outlook.Reading{Day: typical.Day + season.Day(tr.at), Soil: units.Celsius(s.daily[at] + noise)}
			tr.past = s.sign()*float64(tr.reading.Soil-s.trigger.Level) >= 0
			all = append(all, tr)
		}
	}
	return all
}

// ahead keeps the trials in which neither the reading nor the year is past
// the level.
func ahead(all []trial) []trial {
	return slices.DeleteFunc(slices.Clone(all), func(tr trial) bool { return tr.past || tr.happened < tr.at })
}

// score is how a way of forecasting did.
type score struct{ mae, rmse, bias, early, late, width float64 }

// judge scores days of forecast: early, expected and late, from the typical
// day.
func judge(list []trial, forecast func(*trial) (early, day, late float64)) score {
	var s score
	n := float64(len(list))
	for i := range list {
		early, day, late := forecast(&list[i])
		miss := list[i].happened - day
		s.mae += math.Abs(miss) / n
		s.rmse += miss * miss / n
		s.bias += miss / n
		s.width += (late - early) / n
		if list[i].happened < early {
			s.early += 1 / n
		}
		if list[i].happened > late {
			s.late += 1 / n
		}
	}
	s.rmse = math.Sqrt(s.rmse)
	return s
}

func byOutlook(t testing.TB, readings func(*trial) []outlook.Reading) func(*trial) (float64, float64, float64) {
	return func(tr *trial) (float64, float64, float64) {
		o, err := tr.place.Expect(readings(tr))
		if err != nil || o.State != outlook.Expected {
			t.Fatalf("state %v, %v, of a reading below the level", o.State, err)
		}
		from := o.Typical.Day
		return float64(o.Early - from), float64(o.Day - from), float64(o.Late - from)
	}
}

func alone(tr *trial) []outlook.Reading { return []outlook.Reading{tr.reading} }

func byTypical(tr *trial) (float64, float64, float64) {
	reach := 1.2815515655446004 * math.Hypot(tr.place.Spread, tr.place.Error)
	return -reach, 0, reach
}

// byCut is the typical day, given that it lies after the reading.
func byCut(tr *trial) (float64, float64, float64) {
	scale := 1.2815515655446004 * math.Hypot(tr.place.Spread, tr.place.Error) / math.Log(9)
	before := 1 / (1 + math.Exp(-tr.at/scale))
	at := func(p float64) float64 { p = before + p*(1-before); return scale * math.Log(p/(1-p)) }
	return at(0.1), at(0.5), at(0.9)
}

// byShare shifts the typical day by a share of departure/slope.
func byShare(share float64) func(*trial) (float64, float64, float64) {
	return func(tr *trial) (float64, float64, float64) {
		day := math.Max(-share*shift(tr), tr.at)
		return day, day, day
	}
}

// shift is how many days earlier the soil would be at the level if it kept its
// departure.
func shift(tr *trial) float64 {
	i := tr.reading.Day.In() - 1
	whole, part := math.Modf(float64(i))
	a, b := tr.place.Normal[int(whole)], tr.place.Normal[(int(whole)+1)%season.YearDays]
	shift := (float64(tr.reading.Soil) - a - part*(b-a)) / tr.typical.Slope
	if tr.place.Trigger.Direction == crossing.Cooling {
		return -shift
	}
	return shift
}

// bestShare is the least-squares share over all stations but one.
func bestShare(list []trial, but int) float64 {
	xy, xx := 0.0, 0.0
	for i := range list {
		if tr := &list[i]; tr.station != but {
			xy -= shift(tr) * tr.happened
			xx += shift(tr) * shift(tr)
		}
	}
	return xy / xx
}
