package source

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"
)

// yearOf writes twelve grids of 6 × 8 cells whose months have means from 1 to
// 22, in °C, and lets change one of them.
func yearOf(t *testing.T, change func(month int, v float64) string) []string {
	t.Helper()
	mean := [12]float64{1, 2, 5, 11, 16, 20, 22, 21, 18, 13, 7, 3}
	dir := t.TempDir()
	var paths []string
	for m := range 12 {
		var b strings.Builder
		b.WriteString("ncols 8\nnrows 6\nxllcorner -52\nyllcorner 38\ncellsize 0.5\n")
		for i := range 48 {
			b.WriteString(change(m+1, mean[m]+float64(i%7)/10) + " ")
		}
		paths = append(paths, write(t, dir, fmt.Sprintf("tavg-%02d.asc", m+1), b.String()))
	}
	return paths
}

func TestOddMonth(t *testing.T) {
	plain := func(v float64) string { return fmt.Sprintf("%.1f", v) }
	in := func(month int, f func(v float64) string) func(int, float64) string {
		return func(m int, v float64) string {
			if m == month {
				return f(v)
			}
			return plain(v)
		}
	}
	for name, c := range map[string]struct {
		change          func(int, float64) string
		unit, err, note string
	}{
		"all in order":       {in(0, nil), "auto", "", ""},
		"kelvins":            {in(3, func(v float64) string { return plain(v + 273.15) }), "auto", "tavg-03.asc: its mean is 278.4, those of the months before and after are 2.294 and 11.29; want all twelve in one unit", ""},
		"Fahrenheit":         {in(7, func(v float64) string { return plain(v*1.8 + 32) }), "C", "tavg-07.asc: its mean is 72", ""},
		"Fahrenheit, winter": {in(12, func(v float64) string { return plain(v*1.8 + 32) }), "auto", "tavg-12.asc: its mean is 37", ""},
		"tenths":             {in(4, func(v float64) string { return fmt.Sprint(int(10 * v)) }), "C", "tavg-04.asc: its mean is 112", ""},
		"nothing":            {in(5, func(float64) string { return "-9999" }), "auto", "tavg-05.asc has no values where other months have some", ""},
		"one value":          {in(5, func(float64) string { return "15" }), "auto", "", "tavg-05.asc holds the same value, 15, everywhere"},
		"a copy":             {in(2, func(v float64) string { return plain(v + 3) }), "auto", "", "tavg-02.asc and " /* tavg-03.asc */},
	} {
		t.Run(name, func(t *testing.T) {
			n, err := OpenNormals(yearOf(t, c.change), NormalsOptions{Unit: c.unit})
			if err == nil {
				defer n.Close()
			}
			if c.err != "" || err != nil {
				if err == nil || c.err == "" || !strings.Contains(err.Error(), string(filepath.Separator)+c.err) {
					t.Errorf("%v, want %q", err, c.err)
				}
				return
			}
			if notes := strings.Join(n.Notes(), "|"); c.note == "" && notes != "" || !strings.Contains(notes, c.note) {
				t.Errorf("notes %q, want %q", notes, c.note)
			}
		})
	}
}
