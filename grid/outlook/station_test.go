package outlook_test

import (
	"compress/gzip"
	"encoding/csv"
	"io"
	"maps"
	"math"
	"os"
	"slices"
	"strconv"
	"sync"
	"testing"
	"time"

	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/oracle"
	"weekband/grid/season"
	"weekband/grid/units"
)

// station is the daily soil of one place, day 0 of the series first. NaN is
// missing.
type station struct {
	daily     []float64
	normal    *curve.Year
	trigger   crossing.Trigger
	typical   crossing.Crossing
	crossings []yearly
	spread    float64 // standard deviation of the crossings, days
}

// yearly is a year's crossing: the middle of the last of the 7 days whose
// mean is first past the level. Both are days of the series.
type yearly struct{ typical, happened float64 }

var firstDay = time.Date(2009, 6, 1, 0, 0, 0, 0, time.UTC)

var seriesOf = sync.OnceValues(func() (map[string][]float64, error) { return readSeries(seriesPath) })

var seriesPath string

// readSeries returns the daily soil at 10 cm of every station, U.S. Climate
// Reference Network (Bell et al. 2013, J. Hydrometeor. 14:977).
func readSeries(path string) (map[string][]float64, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	unzipped, err := gzip.NewReader(f)
	if err != nil {
		return nil, err
	}
	series := map[string][]float64{}
	rows := csv.NewReader(unzipped)
	rows.ReuseRecord = true
	for {
		row, err := rows.Read()
		if err == io.EOF {
			return series, nil
		} else if err != nil {
			return nil, err
		}
		date, err := time.Parse("2006-01-02", row[1])
		soil, err2 := strconv.ParseFloat(row[5], 64)
		if err != nil || err2 != nil {
			continue // the header, and days without soil
		}
		s, at := series[row[0]], int(date.Sub(firstDay).Hours()/24)
		for len(s) <= at {
			s = append(s, math.NaN())
		}
		s[at] = soil
		series[row[0]] = s
	}
}

// stationsAt returns the stations with at least 6 crossings of the trigger.
func stationsAt(t testing.TB, trigger crossing.Trigger) []*station {
	t.Helper()
	seriesPath = oracle.Data(t, "us/soil-daily.csv.gz")
	series, err := seriesOf()
	if err != nil {
		t.Fatal(err)
	}
	var list []*station
	for _, id := range slices.Sorted(maps.Keys(series)) {
		s := &station{daily: series[id], trigger: trigger}
		if s.prepare() {
			list = append(list, s)
		}
	}
	return list
}

// dayOfYear returns the day of the typical year, 0 to 364, of a day of the
// series; 29 February is 1 March's.
func dayOfYear(at int) int {
	date := firstDay.AddDate(0, 0, at)
	day := date.YearDay() - 1
	if leap := time.Date(date.Year(), 12, 31, 0, 0, 0, 0, time.UTC).YearDay() == 366; leap && date.Month() > time.February {
		day--
	}
	return min(day, season.YearDays-1)
}

func (s *station) prepare() bool {
	var sum, n [season.YearDays]float64
	total := 0.0
	for at, v := range s.daily {
		if !math.IsNaN(v) {
			sum[dayOfYear(at)] += v
			n[dayOfYear(at)]++
			total++
		}
	}
	if total < 6*season.YearDays {
		return false
	}
	var means [season.YearDays]units.Celsius
	for i := range means {
		means[i] = units.Celsius(sum[i] / n[i])
	}
	c := curve.FromDays(means[:], 4)
	s.normal = new(curve.Year)
	c.Sample(s.normal)
	s.typical = crossing.Find(s.normal, s.trigger)
	if s.typical.Reason != crossing.Dated {
		return false
	}
	s.findCrossings()
	if len(s.crossings) < 6 {
		return false
	}
	mean, squares := 0.0, 0.0
	for _, y := range s.crossings {
		mean += (y.happened - y.typical) / float64(len(s.crossings))
	}
	for _, y := range s.crossings {
		squares += math.Pow(y.happened-y.typical-mean, 2)
	}
	s.spread = math.Sqrt(squares / float64(len(s.crossings)-1))
	return true
}

// findCrossings looks for the crossing of each year from its coldest time on
// (warmest for a falling trigger), and keeps the years with a whole record.
func (s *station) findCrossings() {
	sign := s.sign()
	summit := 0
	for i, v := range s.normal {
		if sign*v > sign*s.normal[summit] {
			summit = i
		}
	}
	rise := int(s.typical.Origin.DaysTo(season.Day(summit + 1)))
	for y := 2009; y < 2025; y++ {
		january := int(time.Date(y, 1, 1, 0, 0, 0, 0, time.UTC).Sub(firstDay).Hours() / 24)
		from := january + int(s.typical.Origin) - 1
		if from < 45 {
			continue
		}
		missing := 0
		for at := from; at < from+rise+20 && at < len(s.daily); at++ {
			mean, whole := s.week(at)
			if !whole {
				missing++
				continue
			}
			if sign*mean < sign*float64(s.trigger.Level) {
				continue
			}
			if at > from && missing <= 7 && s.whole(max(at-21, from), at) {
				lag := s.typical.Origin.DaysTo(s.typical.Day)
				s.crossings = append(s.crossings, yearly{float64(from) + lag, float64(at) + 0.5})
			}
			break
		}
	}
}

func (s *station) sign() float64 {
	if s.trigger.Direction == crossing.Cooling {
		return -1
	}
	return 1
}

// week returns the mean of the 7 days up to one, and whether all are there.
func (s *station) week(at int) (float64, bool) {
	sum := 0.0
	for i := at - 6; i <= at; i++ {
		sum += s.daily[i]
	}
	return sum / 7, !math.IsNaN(sum)
}

func (s *station) whole(from, to int) bool {
	for at := from; at < to; at++ {
		if _, ok := s.week(at); !ok {
			return false
		}
	}
	return true
}
