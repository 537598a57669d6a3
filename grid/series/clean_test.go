package series_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"weekband/grid/season"
	"weekband/grid/series"
	"weekband/grid/units"
)

// plot makes a station with air and soil at 5 and 10 cm for ten years from
// 2001: waves with noise, smaller and smoother below.
func plot() *series.Network {
	rng := rand.New(rand.NewPCG(5, 10))
	c := wave(11, 14, 18.5)
	five, ten := 0.0, 0.0
	s := days(series.NewDate(2001, time.January, 1), series.NewDate(2010, time.December, 31), func(d series.Date) float64 { return float64(c.At(d.Noon())) })
	s.Soil = append(s.Soil, series.Values{Vals: slices.Clone(s.Soil[0].Vals), Has: slices.Clone(s.Soil[0].Has)})
	for i := range s.Air.Vals {
		noise := 3 * rng.NormFloat64()
		five += (noise - five) * 0.3
		ten += (five - ten) * 0.5
		s.Air.Vals[i] += float32(noise)
		s.Soil[0].Vals[i] += float32(five) + 1
		s.Soil[1].Vals[i] += float32(ten) + 1
	}
	return &series.Network{List: []series.Station{*s}, Depths: []units.Metres{0.05, 0.1}}
}

func TestCleanLeavesGoodSeriesAlone(t *testing.T) {
	n := plot()
	before := n.List[0].Soil[1].Count()
	r := n.Clean(series.Rules{})
	if len(r) != 1 || len(r[0].Findings) != 0 || !r[0].Usable(0) || n.List[0].Soil[1].Count() != before {
		t.Errorf("%+v", r)
	}
	if c := r[0].Soil[1]; c.Pairs != 3652 || c.Complete != [12]int{10, 10, 10, 10, 10, 10, 10, 10, 10, 10, 10, 10} || c.Missing[1] != 0 {
		t.Errorf("coverage %+v", c)
	}
}

func TestCleanFinds(t *testing.T) {
	at := func(y int, m time.Month, d int) int {
		return int(series.NewDate(y, m, d) - series.NewDate(2001, time.January, 1))
	}
	for name, c := range map[string]struct {
		spoil  func(s *series.Station)
		want   []string // findings of the sensor at 10 cm unless they name air
		gone   int      // values taken out at 10 cm
		usable bool
	}{
		"stuck": {func(s *series.Station) {
			for i := range 14 {
				s.Soil[1].Vals[at(2004, 7, 3)+i] = 21.5
			}
		}, []string{"soil at 10 cm: stuck at 21.5 °C for 14 days, 2004-07-03 to 2004-07-16 (set aside)"}, 14, true},
		"frozen": {func(s *series.Station) {
			for i := range 30 {
				s.Soil[1].Vals[at(2004, 1, 3)+i] = -0.1
			}
		}, []string{"still near 0 °C on 30 days"}, 0, true},
		"air stuck near 0": {func(s *series.Station) {
			for i := range 12 {
				s.Air.Vals[at(2004, 1, 3)+i] = 0
			}
		}, []string{"air: stuck at 0.0 °C"}, 0, true},
		"spike": {func(s *series.Station) { s.Soil[1].Vals[at(2004, 7, 3)] -= 14 },
			[]string{"soil at 10 cm: a spike of -1"}, 1, true},
		"a cold front": {func(s *series.Station) {
			s.Soil[1].Vals[at(2004, 7, 3)] -= 8
			s.Air.Vals[at(2004, 7, 3)] -= 14
		}, nil, 0, true},
		"out of range": {func(s *series.Station) { s.Soil[1].Vals[at(2004, 7, 3)] = 79 },
			[]string{"soil at 10 cm: 79.0 °C on 2004-07-03 (set aside)"}, 1, true},
		"sensor replaced": {func(s *series.Station) {
			for i := at(2006, 7, 1); i < s.Len(); i++ {
				s.Soil[1].Vals[i] += 1.8
			}
		}, []string{"soil at 10 cm: a step of +1.8 K after 2006-06-30"}, 0, true},
		"station moved far": {func(s *series.Station) {
			for i := at(2006, 7, 1); i < s.Len(); i++ {
				s.Soil[1].Vals[i] -= 5
			}
		}, []string{"a step of -5.0 K after 2006-06-30: was a sensor or the site changed? (refused)"}, 0, false},
		"air and soil swapped": {func(s *series.Station) { s.Air, s.Soil[1] = s.Soil[1], s.Air },
			[]string{"as air: are the columns swapped? (refused)"}, 0, false},
		"depths swapped": {func(s *series.Station) { s.Soil[0], s.Soil[1] = s.Soil[1], s.Soil[0] },
			[]string{"are the depths swapped? (noted)"}, 0, true},
		"copied from air": {func(s *series.Station) { copy(s.Soil[1].Vals, s.Air.Vals) },
			[]string{"100 % of the values equal"}, 0, false},
		"Fahrenheit": {func(s *series.Station) {
			for i, v := range s.Soil[1].Vals {
				s.Soil[1].Vals[i] = float32(units.Celsius(v/3 + 5).Fahrenheit())
			}
		}, []string{"degrees Fahrenheit? (refused)"}, 0, false},
		"no Februaries": {func(s *series.Station) {
			for y := 2001; y <= 2007; y++ {
				take(&s.Soil[1], at(y, 2, 10), at(y, 2, 15))
			}
		}, []string{"February is complete in only 3 years (refused)"}, 42, false},
		"too short": {func(s *series.Station) { take(&s.Soil[1], at(2004, 1, 1), s.Len()-1) },
			[]string{"no month is complete in more than 3 years (refused)"}, 3652 - at(2004, 1, 1), false},
	} {
		n := plot()
		c.spoil(&n.List[0])
		before := n.List[0].Soil[1].Count()
		if name == "no Februaries" || name == "too short" {
			before = 3652
		}
		r := n.Clean(series.Rules{})[0]
		text := r.String()
		for _, want := range c.want {
			if !strings.Contains(text, want) {
				t.Errorf("%s: found\n%swant %q", name, text, want)
			}
		}
		if c.want == nil && text != "" {
			t.Errorf("%s: found\n%s", name, text)
		}
		if gone := before - n.List[0].Soil[1].Count(); gone != c.gone {
			t.Errorf("%s: %d values gone, want %d", name, gone, c.gone)
		}
		if r.Usable(1) != c.usable {
			t.Errorf("%s: usable %v\n%s", name, r.Usable(1), text)
		}
		if name != "air stuck near 0" && !strings.Contains(name, "swapped") && !r.Usable(0) {
			t.Errorf("%s: the sensor at 5 cm is refused\n%s", name, text)
		}
	}
}

// A metre down, a summer stands at one tenth of a degree for two weeks.
func TestDeepSoilIsNotStuck(t *testing.T) {
	c := wave(12, 6, 60)
	deep := func() *series.Network {
		n := plot()
		s := &n.List[0]
		for i := range s.Soil[1].Vals {
			s.Soil[1].Vals[i] = float32(math.Round(10*float64(c.At(s.Date(i).Noon()))) / 10)
		}
		return n
	}
	n := deep()
	n.Depths[1] = 1
	if r := n.Clean(series.Rules{})[0]; len(r.Findings) != 0 {
		t.Errorf("at 1 m: %v", r.String())
	}
	if r := deep().Clean(series.Rules{})[0]; !strings.Contains(r.String(), "stuck") {
		t.Errorf("at 10 cm the same is not stuck: %v", r.String())
	}
}

// A single odd year is no step.
func TestOddYearIsNoStep(t *testing.T) {
	n := plot()
	s := &n.List[0]
	for i := range s.Soil[1].Vals {
		if y, _, _ := s.Date(i).YMD(); y == 2005 {
			s.Soil[1].Vals[i] += 1.5
		}
	}
	if r := n.Clean(series.Rules{})[0]; len(r.Findings) != 0 {
		t.Errorf("one warm year: %v", r.String())
	}
}

// A month with 10 missing days is complete when no five follow each other
// (WMO-No. 1203); the last month of the record need not be whole.
func TestCompleteMonths(t *testing.T) {
	for name, c := range map[string]struct {
		missing []int
		want    int
	}{
		"ten apart":    {[]int{1, 2, 4, 5, 7, 8, 10, 11, 13, 14}, 10},
		"eleven apart": {[]int{1, 2, 4, 5, 7, 8, 10, 11, 13, 14, 16}, 9},
		"four":         {[]int{8, 9, 10, 11}, 10},
		"five":         {[]int{8, 9, 10, 11, 12}, 9},
	} {
		n := plot()
		s := &n.List[0]
		for _, d := range c.missing {
			i := int(series.NewDate(2003, time.May, d) - s.First)
			take(&s.Soil[1], i, i)
		}
		r := n.Clean(series.Rules{})[0]
		if got := r.Soil[1].Complete[4]; got != c.want {
			t.Errorf("%s: May is complete in %d years, want %d", name, got, c.want)
		}
		if got, want := r.Soil[1].Missing[4], float64(len(c.missing))/310; math.Abs(got-want) > 1e-12 {
			t.Errorf("%s: share missing %v, want %v", name, got, want)
		}
	}
	short := plot()
	s := &short.List[0]
	_, years := s.MonthSD(&s.Air)
	s.Air.Has, s.Air.Vals = s.Air.Has[:s.Len()-6], s.Air.Vals[:s.Len()-6]
	s.Soil[0].Has, s.Soil[1].Has = s.Soil[0].Has[:s.Len()], s.Soil[1].Has[:s.Len()]
	if _, fewer := s.MonthSD(&s.Air); years[season.YearDays/30-1] != 10 || fewer[11] != 9 {
		t.Errorf("December is complete in %d years, and in %d without its last six days", years[11], fewer[11])
	}
}
