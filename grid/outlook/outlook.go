package outlook

import (
	"math"

	"weekband/grid/crossing"
	"weekband/grid/season"
	"weekband/grid/spread"
	"weekband/grid/units"
)

// State says what is known of this year's crossing.
type State uint8

const (
	Undated  State = iota // the place has no typical day; Typical.Reason says why
	Expected              // it lies ahead: Day, Early and Late are set
	Reached               // the soil was at the level at the latest reading and should stay there
	Unlikely              // the typical year meets the level, this one is not expected to
)

// String returns the word written in tables.
func (s State) String() string {
	return [...]string{"undated", "expected", "reached", "unlikely"}[s]
}

// Outlook is what is expected of this year. All days are unwrapped around
// Typical.Day, which lies in [1, 366): they keep their order over New Year
// and may lie outside of that range. Day, Early, Late and SD are 0 unless
// State is Expected.
type Outlook struct {
	State     State
	Typical   crossing.Crossing // of the normal year; Reason Flat makes Day as doubtful as Typical.Day
	Readings  int               // how many were used
	Latest    season.Day        // moment of the latest reading; 0 without readings
	Departure units.Delta       // the latest day's mean reading minus normal
	Day       season.Day        // as likely to be earlier as later
	Early     season.Day        // 1 year in 10 is earlier
	Late      season.Day        // 1 year in 10 is later
	SD        float64           // days, of a normal distribution whose early and late days are as far apart
}

const (
	// settled is how many days the soil may be expected to fall back below
	// the level after a reading at it and still count as Reached: half of the
	// week over which a year's crossing is defined. Of such readings 7 to 56
	// days before the typical day 55 % came after the year's crossing and 87 %
	// at most 7 days before it; of other readings at the level 14 % and 41 %.
	settled = 3.5

	// tenth is ln 9, by which a logistic variable of scale 1 reaches its 10 %
	// and 90 % quantiles.
	tenth = 2.1972245773362196
)

// Expect returns this year's crossing given the readings in any order.
// Without readings it is exactly the typical day with its spread. A warmer
// reading never makes a warming day later nor a cooling day earlier. It
// returns the error of Check.
//
// The season of a warming trigger runs from one warmest time of the normal
// year to the next (of a cooling one from coldest to coldest), and all
// readings are taken to be from the same season: one in autumn is about the
// coming spring, and says next to nothing about it.
//
// A single warm spell is no crossing: when the soil is at the level but
// expected to fall back for more than half a week, the state is Expected and
// the day the one on which it gets there for good. Otherwise a reading at the
// level makes the state Reached, and nothing past is given as future. Only
// the latest day's readings decide whether the soil is at the level.
func (p *Place) Expect(readings []Reading) (Outlook, error) {
	if err := p.Check(readings); err != nil {
		return Outlook{}, err
	}
	o := Outlook{Typical: crossing.Find(p.Normal, p.Trigger), Readings: len(readings)}
	if o.Typical.Reason != crossing.Dated {
		return o, nil
	}
	sd := spread.Together(p.Spread, p.Error)
	if len(readings) == 0 {
		o.State = Expected
		o.quantiles(float64(o.Typical.Day), sd, math.Inf(-1))
		return o, nil
	}
	y := p.thisYear(o.Typical, readings)
	o.Latest = season.Day(y.latest)
	o.Departure = units.Delta(y.sign * y.departure)
	day, ok := y.forGood()
	switch {
	case !ok:
		o.State = Unlikely
	case y.above && day-y.latest <= settled:
		o.State = Reached
	default:
		o.State = Expected
		o.quantiles(day, sd*math.Sqrt(1-y.explained(day)), y.latest)
	}
	return o, nil
}

// quantiles sets Day, Early, Late and SD from the day's mean and standard
// deviation, given that it lies after a moment. The distribution is the
// logistic one with the 10 % and 90 % quantiles of the normal: it is as good
// and its quantiles need no tables.
func (o *Outlook) quantiles(mean, sd, after float64) {
	scale := spread.EarlyBy(sd) / tenth
	before := 1 / (1 + math.Exp((mean-after)/scale))
	at := func(p float64) season.Day {
		p = before + float64(p*(1-before))
		return season.Day(mean + float64(scale*math.Log(p/(1-p))))
	}
	o.Early, o.Day, o.Late = at(0.1), at(0.5), at(0.9)
	o.SD = float64(o.Late-o.Early) / (2 * spread.EarlyBy(1))
}
