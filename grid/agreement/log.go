package agreement

import (
	"cmp"
	"slices"

	"weekband/grid"
	"weekband/grid/season"
	"weekband/grid/series"
	"weekband/grid/units"
)

// Log is what one thermometer showed.
type Log struct {
	Name     string // of the place, "" for none
	At       grid.LonLat
	Depth    units.Metres // 0: that of the map
	Readings []Reading    // by date, at most one a day
}

// Reading is one day's soil temperature.
type Reading struct {
	Date series.Date
	Soil units.Celsius
}

// order sorts the readings by date and joins those of a day to their mean.
func (l *Log) order() {
	slices.SortStableFunc(l.Readings, func(a, b Reading) int { return cmp.Compare(a.Date, b.Date) })
	kept := l.Readings[:0]
	for i := 0; i < len(l.Readings); {
		day, sum, n := l.Readings[i].Date, units.Celsius(0), 0
		for ; i < len(l.Readings) && l.Readings[i].Date == day; i++ {
			sum += l.Readings[i].Soil
			n++
		}
		kept = append(kept, Reading{Date: day, Soil: sum / units.Celsius(n)})
	}
	l.Readings = kept
}

// between returns the readings from one date to before another.
func (l *Log) between(from, to series.Date) []Reading {
	at := func(d series.Date) int {
		i, _ := slices.BinarySearchFunc(l.Readings, d, func(r Reading, d series.Date) int { return cmp.Compare(r.Date, d) })
		return i
	}
	return l.Readings[at(from):at(to)]
}

// crossed returns the moment at which readings of one season first meet a
// level, as the package's documentation says, in days from 1970 with noons at
// halves; ok is false when they do not tell. sign is 1 for warming and -1 for
// cooling.
func crossed(list []Reading, level, sign float64) (at float64, ok bool) {
	past := func(v float64) bool { return sign*v >= sign*level }
	first := 0 // of the readings within seven days
	for i, r := range list {
		for list[first].Date <= r.Date-span {
			first++
		}
		n := i - first + 1
		if n >= dense {
			sum := 0.0
			for _, q := range list[first : i+1] {
				sum += float64(q.Soil)
			}
			if past(sum / float64(n)) {
				// A log that begins past the level says nothing of when.
				return noon(r.Date), list[0].Date < r.Date-span || !past(float64(list[0].Soil))
			}
			continue
		}
		if !past(float64(r.Soil)) {
			continue
		}
		if i == 0 || past(float64(list[i-1].Soil)) || r.Date-list[i-1].Date > apart {
			return 0, false
		}
		if i+1 < len(list) && list[i+1].Date-r.Date <= apart && past(float64(list[i+1].Soil)) {
			a, b := float64(list[i-1].Soil), float64(r.Soil)
			t := (level - a) / (b - a)
			return noon(list[i-1].Date) + float64(t*float64(r.Date-list[i-1].Date)), true
		}
	}
	return 0, false
}

// Bounds of the rule of a year's day.
const (
	span  = 7  // days of a mean
	dense = 5  // readings in them
	apart = 14 // days between readings that tell something together
)

func noon(d series.Date) float64 { return float64(d) + 0.5 }

// moment returns the moment of the typical year that a moment in days from
// 1970 falls on.
func moment(at float64) season.Day {
	day := series.Date(at)
	return day.Noon() + season.Day(at-noon(day))
}
