package source

import (
	"strings"
	"testing"

	"weekband/grid/units"
)

func TestNormalsRange(t *testing.T) {
	for _, c := range []struct {
		name, values string
		opts         NormalsOptions
		err          []string
	}{
		{"nodata not named", "1 2 3\n4 -9999 6", NormalsOptions{Unit: "C"}, []string{"tavg_05.asc: row 1, column 1", "-9999 in unit C", "if -9999 stands for a missing cell"}},
		{"Fahrenheit taken for Celsius", "1 2 78\n4 5 6", NormalsOptions{Unit: "C"}, []string{"row 0, column 2 (latitude 40.38, longitude -89.75): 78 in unit C", "unit: F"}},
		{"deviation", "1 2 3\n-4 5 6", NormalsOptions{Unit: "C", Deviation: true}, []string{"deviation -4 in unit C is outside 0 to 40 K"}},
		{"just inside", "-90 60 0 1 1 1", NormalsOptions{Unit: "C"}, nil},
		{"deviation in tenths of Fahrenheit", "18 18 18 18 18 18", NormalsOptions{Unit: "0.1F", Deviation: true}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := t.TempDir()
			var paths []string
			for m := 1; m <= 12; m++ {
				values := "1 1 1 1 1 1"
				if m == 5 {
					values = c.values
				}
				paths = append(paths, write(t, dir, number(m), strings.Replace(ascGrid(values), "-1\n", "-7\n", 1)))
			}
			n, err := OpenNormals(paths, c.opts)
			if err != nil {
				t.Fatal(err)
			}
			defer n.Close()
			var r Rows
			err = n.Read(0, 2, &r)
			for _, want := range c.err {
				if err == nil || !strings.Contains(err.Error(), want) {
					t.Errorf("error %v, want one with %q", err, want)
				}
			}
			if c.err == nil && err != nil {
				t.Error(err)
			}
			if c.opts.Unit == "0.1F" && (r.Vals[4][0] < 0.99999 || r.Vals[4][0] > 1.00001) { // 1.8 °F apart is 1 K
				t.Errorf("%v", r.Vals[4][0])
			}
		})
	}
}

func TestScaleOf(t *testing.T) {
	for text, want := range map[string]units.Scale{
		"K": units.K, "kelvin": units.K, "degK": units.K, "Kelvins": units.K,
		"C": units.C, "degC": units.C, "degrees C": units.C, "degrees_Celsius": units.C, "degree_C": units.C, "celsius": units.C, "°C": units.C, "Deg. C": 0,
		"F": units.F, "degF": units.F, "degrees Fahrenheit": units.F, " °F ": units.F,
		"0.1 degC": units.TenthsC, "0.1*C": units.TenthsC, "°C * 10": units.TenthsC, "0.1 degF": units.TenthsF, "0.1 K": 0,
		"m": 0, "METERS": 0, "": 0, "mm": 0, "deg": 0,
	} {
		if got, ok := scaleOf(text); got != want || ok != (want != 0) {
			t.Errorf("%q: %v %v, want %v", text, got, ok, want)
		}
	}
}

func TestGuess(t *testing.T) {
	for _, c := range []struct {
		name      string
		low, high float64
		whole     bool
		want      units.Scale
		why       string
	}{
		{"a continent in °C", -16.92, 37.11, false, units.C, "look like degrees Celsius"},
		{"the same in °F", 1.5, 98.8, false, units.F, "look like degrees Fahrenheit"},
		{"in kelvins", 233.2, 311.4, false, units.K, "values 233.2 to 311.4 look like kelvins"},
		{"in tenths of °C", -169, 371, true, units.TenthsC, "tenths of a degree Celsius"},
		{"in tenths of °F", 15, 988, true, units.TenthsF, "tenths of a degree Fahrenheit"},
		{"whole °F", 1, 98, true, units.F, "look like"},
		{"tropics in tenths, or whole kelvins", 214, 301, true, 0, "could be kelvins or tenths of a degree Celsius"},
		{"tropics in kelvins", 290.5, 301.2, false, units.K, "kelvins"},
		// Celsius would be too hot and Fahrenheit too cold: -11.9 and 7.5 °C by hand.
		{"neither", 10.5, 45.5, false, 0, "do not look like a year's temperatures on any scale: as Fahrenheit they are -11.9 to 7.5 °C, as Celsius 10.5 to 45.5 °C"},
		{"hundredths", -1692, 3711, true, 0, "do not look like"},
		{"elevation", -80, 4300, true, 0, "do not look like"},
		{"all one missing number", -9999, 30, false, 0, "do not look like"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, why, ok := guess(sampled{count: 10, low: c.low, high: c.high, whole: c.whole})
			if got != c.want || ok != (c.want != 0) || !strings.Contains(why, c.why) {
				t.Errorf("%v %v, %s", got, ok, why)
			}
		})
	}
	if _, why, ok := guess(sampled{}); ok || !strings.Contains(why, "no values") {
		t.Error(why)
	}
}
