package worth

import (
	"math"

	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/units"
)

// Half-lives of the residual activity in days, as generic classes, in soil at
// DefaultReference. The classes are ours; published figures lie around them:
// 23 and 35 days in Nebraska turf (Schleicher et al. 1995, Weed Sci. 43:140),
// most products fairly ineffective after about 60 days (Kansas State
// University, horticulture newsletter, March 2016), about 120 days for the
// longest-lived (from memory: herbicide handbook). A product's label and local
// trials come before them.
const (
	Short  = 30.0
	Medium = 60.0
	Long   = 120.0
)

// DefaultQ10 is how many times faster a residual is lost in soil 10 K warmer.
// Measured: 2.04 from 10 to 30 °C (98 and 409 days, Walker and Bond 1977) and
// 1.23 from 25 to 35 °C (23.9 and 19.4 days, Malaysia), both for one
// dinitroaniline, and 1.50 from 10 to 35 °C (23.7 and 64.8 days) for a
// chloroacetanilide. Regulators of pesticides reckon with 2.2, lately with
// 2.58 (FOCUS and EFSA, from memory). 2 is ours: near the one measurement
// that spans spring soil, rounded down toward the lower ones.
//
// Of a medium half-life it changes the early side only. Sixty days before 55 °F
// worth is 48 instead of 30 % in the Piedmont of Georgia, 52 instead of 32 % in
// Kansas and 54 instead of 32 % in Minnesota; on the day itself 68 instead of
// 60 %, 70 instead of 64 % and 71 instead of 65 %; the end of catching up stays
// within half a day (soil years of the U.S. Climate Reference Network, spread
// 11 days).
const DefaultQ10 = 2.0

// DefaultReference is the soil temperature half-lives hold at. Laboratories
// state them for 20 °C (FOCUS, from memory), and the field trial behind Short
// ran in soil of the same warmth: at 5 cm near Lincoln, Nebraska, the season
// from 25 April to 20 July wears a residual as constant 19.9 and 21.7 °C would
// (two stations of the U.S. Climate Reference Network, 2009 to 2024).
const DefaultReference units.Celsius = 20

// The warmth that changes the decay. Frozen soil is taken as soil at Frozen:
// microbes and water all but rest there, and regulators let nothing decay
// below 0 °C (FOCUS, from memory), so that worth is rather too low than too
// high after a frozen winter. Soil past Warmest, where microbes no longer
// hurry, is taken as soil at Warmest; ours.
const (
	Frozen  units.Celsius = 0
	Warmest units.Celsius = 45
)

// Treatment is how the residual activity of an application is lost: by first
// order, with a half-life that depends on the day's soil temperature T,
//
//	half-life(T) = HalfLife · Q10^((Reference − T)/10)
//
// for T from Frozen to Warmest, and as at these outside. Losses in the field
// are often faster in the first two weeks and depend on moisture (Barrett and
// Lavy 1983, J. Environ. Qual. 12:504); this is the usual simple model.
//
// The zero value is a treatment that is gone at once.
type Treatment struct {
	HalfLife  float64       // days at Reference, at least 0, finite
	Q10       float64       // 0 or 1: the half-life is the same in all soil
	Reference units.Celsius // 0: DefaultReference
}

// Usual returns the treatment with a half-life in days at DefaultReference
// and the temperature dependence of DefaultQ10.
func Usual(halfLife float64) Treatment {
	return Treatment{HalfLife: halfLife, Q10: DefaultQ10, Reference: DefaultReference}
}

// HalfLifeAt returns the half-life in days in soil of temperature t.
func (t Treatment) HalfLifeAt(soil units.Celsius) float64 {
	if t.Q10 <= 0 || t.Q10 == 1 {
		return t.HalfLife
	}
	if t.Reference == 0 {
		t.Reference = DefaultReference
	}
	soil = min(max(soil, Frozen), Warmest)
	return t.HalfLife * math.Pow(t.Q10, float64(t.Reference-soil)/10)
}

// Lasts returns the days until an application at a moment has the given share
// of its strength left, more than 0 and at most 1, in a soil year in °C; ok is
// false when that takes more than limit days.
func (t Treatment) Lasts(year *curve.Year, applied season.Day, share, limit float64) (days float64, ok bool) {
	from := float64(applied.In() - 1)
	lives, want := 0.0, -math.Log2(share)
	for to := from; to < from+limit; {
		start := to
		to = min(math.Floor(start)+1, from+limit)
		today := t.lives(year, start, to)
		if lives+today >= want {
			return start - from + float64((to-start)*min((want-lives)/today, 1)), true
		}
		lives += today
	}
	return limit, false
}

// lives returns the half-lives that pass between two moments of one day,
// counted from 1 January 0:00.
func (t Treatment) lives(year *curve.Year, from, to float64) float64 {
	day := math.Floor(from)
	i := int(day)
	a, b := year[i%season.YearDays], year[(i+1)%season.YearDays]
	mean := a + float64(((from+to)/2-day)*(b-a))
	return (to - from) / t.HalfLifeAt(units.Celsius(mean))
}

// Entries of a decay's table lie tableStep K apart from lowest on, so that the
// first and the last stand for all colder and warmer soil. Between them the
// table is right to 5e-5 of a day's loss.
const (
	tableStep = 0.25
	lowest    = Frozen - tableStep
	entries   = int((Warmest-lowest)/tableStep) + 1
)

// decay is a treatment's table of the loss in soil of a temperature.
type decay struct {
	treatment Treatment
	halves    [entries]halfDay
}

// halfDay holds half of the share of strength that is left after half a day,
// and its rise to the next entry.
type halfDay struct{ left, rise float64 }

func newDecay(t Treatment) *decay {
	d := &decay{treatment: t}
	for i := range d.halves {
		d.halves[i].left = 0.5 * math.Exp2(-0.5/t.HalfLifeAt(lowest+units.Celsius(units.Celsius(i)*tableStep)))
	}
	for i := range entries - 1 {
		d.halves[i].rise = d.halves[i+1].left - d.halves[i].left
	}
	return d
}

// at returns half of the share of strength that is left after half a day in
// soil of a temperature in °C. The sum of that at a day's beginning and its
// end is what half of that day leaves.
func (d *decay) at(soil float64) float64 {
	x := float64((soil - float64(lowest)) * (1 / tableStep))
	i := int(x)
	if uint(i) >= uint(len(d.halves)) {
		return d.outside(x)
	}
	h := &d.halves[i]
	return h.left + float64((x-float64(i))*h.rise)
}

func (d *decay) outside(x float64) float64 {
	if x < 0 {
		return d.halves[0].left
	}
	return d.halves[entries-1].left
}

// memory remembers the tables of the treatments met last, as many as a run
// has windows in all but odd cases.
type memory[T any] struct {
	treatments [8]Treatment
	tables     [8]*T
	next       int
}

// of returns the table of a treatment, which it makes when it has none.
func (m *memory[T]) of(t Treatment, table func(Treatment) *T) *T {
	for i, known := range m.tables {
		if known != nil && m.treatments[i] == t {
			return known
		}
	}
	made := table(t)
	m.treatments[m.next], m.tables[m.next] = t, made
	m.next = (m.next + 1) % len(m.tables)
	return made
}
