package series

import (
	"testing"
	"time"

	"weekband/grid/crossing"
	"weekband/grid/season"
)

// The growing season of ETCCDI (Karl, Nicholls & Ghazi 1999): it begins with
// the first six days in a row warmer than 5 °C and ends with the first six
// colder, after 1 July. Values worked from the definition: 10 °C on days 100 to
// 250 and 0 °C on the others.
func TestRunsGiveTheGrowingSeason(t *testing.T) {
	year := func(warm ...[2]int) []float32 {
		days := make([]float32, 366) // by day of the year, from 1
		for _, w := range warm {
			for d := w[0]; d <= w[1]; d++ {
				days[d] = 10
			}
		}
		return days
	}
	warmer := func(days []float32) func(int) bool { return func(d int) bool { return days[d] > 5 } }
	colder := func(days []float32) func(int) bool { return func(d int) bool { return days[d] < 5 } }
	season := year([2]int{100, 250})
	begin, ok := runEnd(warmer(season), 1, 366, 6)
	if !ok || begin != 105 || begin-5 != 100 {
		t.Errorf("the sixth warm day is %d, want 105", begin)
	}
	end, ok := runEnd(colder(season), 182, 366, 6)
	if !ok || end-5 != 251 || (end-5)-(begin-5) != 151 {
		t.Errorf("the first cold span begins on %d after %d days, want 251 after 151", end-5, end-begin)
	}
	if d, _ := runEnd(warmer(year([2]int{60, 64}, [2]int{100, 250})), 1, 366, 6); d != 105 {
		t.Errorf("five warm days in March count: %d", d)
	}
	if d, _ := runEnd(warmer(year([2]int{60, 65}, [2]int{100, 250})), 1, 366, 6); d != 65 {
		t.Errorf("six warm days in March do not count: %d", d)
	}
	even := make([]float32, 366)
	for d := range even {
		even[d] = 5
	}
	if d, ok := runEnd(warmer(even), 1, 366, 6); ok {
		t.Errorf("a year at exactly 5 °C begins on %d", d)
	}
}

func TestBridgedAndTrailing(t *testing.T) {
	v := Values{Vals: []float32{0, 2, 0, 0, 8, 0, 0, 0, 0, 1}, Has: []bool{false, true, false, false, true, false, false, false, false, true}}
	b := bridged(&v, 3)
	for i, want := range []float32{0, 2, 4, 6, 8, 0, 0, 0, 0, 1} {
		if b.Vals[i] != want || b.Has[i] != (i >= 1 && i <= 4 || i == 9) {
			t.Errorf("element %d is %v, %v", i, b.Vals[i], b.Has[i])
		}
	}
	m := trailing(&b, 3)
	for i, want := range []float32{0, 0, 0, 4, 6, 0, 0, 0, 0, 0} {
		if m.Vals[i] != want || m.Has[i] != (want != 0) {
			t.Errorf("mean %d is %v, %v", i, m.Vals[i], m.Has[i])
		}
	}
}

// Hyndman & Fan 1996, type 7, for ten days of the year (numpy.percentile gives
// the same).
func TestQuantileIsTypeSeven(t *testing.T) {
	x := []float64{88, 91, 95, 97, 100, 102, 103, 107, 110, 118}
	y := Yearly{Normal: crossing.Crossing{Origin: 20}}
	for _, d := range []int{5, 0, 9, 3, 7, 1, 8, 2, 6, 4} { // in the order of years
		y.Years = append(y.Years, Year{Reason: crossing.Dated, Day: season.Day(x[d])}, Year{Reason: crossing.NoData})
	}
	for p, want := range map[float64]float64{0: 88, 0.1: 90.7, 0.25: 95.5, 0.5: 101, 0.75: 106, 0.9: 110.8, 1: 118} {
		if got, ok := y.Quantile(p); !ok || float64(got) < want-1e-9 || float64(got) > want+1e-9 {
			t.Errorf("%v: %v, %v, want %v", p, float64(got), ok, want)
		}
	}
	var m moments
	for _, v := range x {
		m.add(v)
	}
	if m.mean < 101.1-1e-9 || m.mean > 101.1+1e-9 || m.sd() < 9.02403 || m.sd() > 9.02405 {
		t.Errorf("mean %v, standard deviation %v; want 101.1 and 9.02404", m.mean, m.sd())
	}
}

func TestDates(t *testing.T) {
	for text, noon := range map[string]float64{"2010-01-01": 1.5, "2011-12-31": 365.5, "2012-02-28": 59.5, "2012-02-29": 60, "2012-03-01": 60.5, "2013-03-01": 60.5, "1899-07-04": 185.5} {
		y, m, d, ok := parseDate(text)
		date := NewDate(y, m, d)
		if !ok || date.String() != text || float64(date.Noon()) != noon {
			t.Errorf("%s became %v at %v, want %v", text, date, float64(date.Noon()), noon)
		}
	}
	if NewDate(1970, time.January, 1) != 0 || NewDate(2000, time.March, 1) != 11017 { // date -d 2000-03-01 +%s
		t.Errorf("1 March 2000 is day %d", NewDate(2000, time.March, 1))
	}
	for _, text := range []string{"2010-13-01", "2010-00", "2010-02-30", "1900-02-29", "2010/05/17", "20100517", "0010-05-17", "2010-5-17", "2010-05-", "２010-05"} {
		if _, _, _, ok := parseDate(text); ok {
			t.Errorf("%q is read as a date", text)
		}
	}
}
