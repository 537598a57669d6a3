package netcdf

import (
	"slices"
	"testing"
)

func TestMonths(t *testing.T) {
	for _, c := range []struct {
		units, calendar string
		times           []float64
		want            []int
	}{
		// NOAA PSL writes long-term means in year 1 of the mixed calendar:
		// hours from 1800 back to 1 January 1 (ncdump -h of air.mon.ltm).
		{"hours since 1800-01-01 00:00:0.0", "", []float64{-15769752, -15769008, -15768336}, []int{1, 2, 3}},
		{"days since 1800-1-1", "standard", []float64{-657073, -657042, -657014}, []int{1, 2, 3}},
		{"days since 1582-10-04", "gregorian", []float64{0, 1, 17, 18}, []int{10, 10, 10, 11}}, // 4, 15, 31 October, 1 November
		{"days since 2000-02-28", "proleptic_gregorian", []float64{0, 1, 2}, []int{2, 2, 3}},
		{"days since 1900-02-28", "proleptic_gregorian", []float64{0, 1, 2}, []int{2, 3, 3}},
		{"days since 1900-02-28", "julian", []float64{0, 1, 2}, []int{2, 2, 3}},
		{"days since 2000-02-28", "noleap", []float64{0, 1, -59, 365 + 306}, []int{2, 3, 12, 12}},
		{"days since 2000-02-28", "366_day", []float64{0, 1, 2}, []int{2, 2, 3}},
		{"days since 2000-12-30", "360_day", []float64{0, 1, 31, -330}, []int{12, 1, 2, 1}},
		{"seconds since 1970-01-01T00:00:00Z", "", []float64{951782399, 951782400 + 86400}, []int{2, 3}}, // 28 Feb 23:59:59 and 1 Mar 2000 UTC
		{"minutes since 1999-12-31 23:30", "", []float64{29, 30}, []int{12, 1}},
		{"months since 2000-11-15", "", []float64{0, 1, 2, -11}, []int{11, 12, 1, 12}},
		{"fortnights since 2000-01-01", "", []float64{0}, nil},
		{"days since 2000-13-01", "", []float64{0}, nil},
		{"days since then", "", []float64{0}, nil},
		{"month", "", []float64{0}, nil},
		{"days since 2000-01-01", "lunar", []float64{0}, nil},
		{"days since 2000-01-01", "", []float64{1e300}, nil},
	} {
		t.Run(c.units+" "+c.calendar, func(t *testing.T) {
			m := small(1, typFloat)
			n := max(len(c.times), 2)
			for len(c.times) < n {
				c.times = append(c.times, c.times[0])
			}
			m.dims[0].length = n
			m.vars[2].data, m.vars[3].data = c.times, m.vars[3].data[:35*n]
			m.vars[2].attrs = []madeAttr{textAttr("units", c.units), textAttr("calendar", c.calendar)}
			f, err := open(m.build(), "")
			if err != nil {
				t.Fatal(err)
			}
			if got := f.Info().Months; !slices.Equal(got, c.want) {
				t.Errorf("months %v, want %v", got, c.want)
			}
		})
	}
}

// TestMonthOfOneLayer reads the month of a file with a single layer.
func TestMonthOfOneLayer(t *testing.T) {
	m := small(1, typFloat)
	m.dims[0].length, m.vars[2].data, m.vars[3].data = 1, []float64{75}, m.vars[3].data[:35]
	f, err := open(m.build(), "")
	if err != nil {
		t.Fatal(err)
	}
	if got := f.Info().Months; !slices.Equal(got, []int{3}) {
		t.Errorf("months %v", got)
	}
}
