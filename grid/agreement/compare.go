package agreement

import (
	"math"
	"slices"

	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/series"
	"weekband/grid/spread"
	"weekband/grid/units"
)

// Map is what the map says of a place.
type Map struct {
	Year    *curve.Year // typical soil at the thermometer's depth, °C
	Trigger crossing.Trigger
	Spread  float64 // standard deviation of the crossing from year to year, days
	Error   float64 // standard error of the typical day, days; 0 when not known
}

// Place is how a log departs from the map, log less map: warmer and later are
// positive.
type Place struct {
	Log       *Log
	Readings  int
	Departure units.Delta // mean
	Size      units.Delta // mean of the absolute departures
	Crossing  crossing.Crossing
	Early     season.Day // the map's early year, unwrapped around Crossing.Day
	Late      season.Day
	Years     []Year
	Median    season.Day // of the years, unwrapped around Crossing.Day; 0 without
	Off       float64    // Median less the typical day, days; 0 without years
}

// Year is one year's crossing.
type Year struct {
	Year   int        // that holds the time a quarter of a year after the coldest (warmest)
	Day    season.Day // unwrapped around the typical day
	Inside bool       // from the early to the late day
}

// Compare compares a log with the map of its place. Where the map's crossing
// has no day to tell, the place has no years.
func Compare(l *Log, m Map) Place {
	l.order()
	p := Place{Log: l, Readings: len(l.Readings), Crossing: crossing.Find(m.Year, m.Trigger)}
	for _, r := range l.Readings {
		d := float64(r.Soil) - m.Year.At(r.Date.Noon())
		p.Departure += units.Delta(d)
		p.Size += units.Delta(math.Abs(d))
	}
	if n := units.Delta(len(l.Readings)); n > 0 {
		p.Departure /= n
		p.Size /= n
	}
	if !p.Crossing.Reason.HasDay() || len(l.Readings) == 0 {
		return p
	}
	by := season.Day(spread.EarlyBy(spread.Together(m.Spread, m.Error)))
	p.Early, p.Late = p.Crossing.Day-by, p.Crossing.Day+by
	p.years(m)
	return p
}

// late is how many days after the other extreme of the map's year a season
// may still cross: what comes later is another season's weather, seen after a
// gap.
const late = 30

// years finds the crossing of every season the log touches.
func (p *Place) years(m Map) {
	sign := m.Trigger.Direction.Sign()
	length := int(p.Crossing.Origin.DaysTo(p.Crossing.Summit)) + late
	list := p.Log.Readings
	first, _, _ := list[0].Date.YMD()
	last, _, _ := list[len(list)-1].Date.YMD()
	month, day := p.Crossing.Origin.MonthDay()
	var days []float64
	for y := first - 1; y <= last; y++ {
		from := series.NewDate(y, month, day)
		at, ok := crossed(p.Log.between(from, from+series.Date(min(length, season.YearDays))), float64(m.Trigger.Level), sign)
		if !ok {
			continue
		}
		label, _, _ := (from + season.YearDays/4).YMD()
		when := p.Crossing.Day + season.Day(p.Crossing.Day.Apart(moment(at)))
		p.Years = append(p.Years, Year{Year: label, Day: when, Inside: when >= p.Early && when <= p.Late})
		days = append(days, float64(when))
	}
	if len(days) == 0 {
		return
	}
	slices.Sort(days)
	n := len(days)
	p.Median = season.Day((days[(n-1)/2] + days[n/2]) / 2)
	p.Off = float64(p.Median - p.Crossing.Day)
}

// Total sums up places.
type Total struct {
	Places    int // with readings
	Readings  int
	Departure units.Delta // mean of the readings
	Size      units.Delta // mean of their absolute departures
	Dated     int         // places with years
	Years     int
	Off       float64 // mean over places of Place.Off, days
	OffError  float64 // its standard error, places taken as independent; 0 for fewer than two
	OffSize   float64 // mean of the absolute values, days
	Inside    float64 // share of the years from the early to the late day
}

// Sum sums up places.
func Sum(places []Place) Total {
	var t Total
	square, inside := 0.0, 0
	for i := range places {
		p := &places[i]
		if p.Readings == 0 {
			continue
		}
		t.Places++
		t.Readings += p.Readings
		t.Departure += units.Delta(p.Departure * units.Delta(p.Readings))
		t.Size += units.Delta(p.Size * units.Delta(p.Readings))
		if len(p.Years) == 0 {
			continue
		}
		t.Dated++
		t.Years += len(p.Years)
		t.Off += p.Off
		t.OffSize += math.Abs(p.Off)
		square += float64(p.Off * p.Off)
		for _, y := range p.Years {
			if y.Inside {
				inside++
			}
		}
	}
	if t.Readings > 0 {
		t.Departure /= units.Delta(t.Readings)
		t.Size /= units.Delta(t.Readings)
	}
	if n := float64(t.Dated); n > 0 {
		t.Off, t.OffSize, t.Inside = t.Off/n, t.OffSize/n, float64(inside)/float64(t.Years)
		if n > 1 {
			t.OffError = math.Sqrt(max(square/n-float64(t.Off*t.Off), 0) / (n - 1))
		}
	}
	return t
}
