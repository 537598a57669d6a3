package units_test

import (
	"fmt"
	"math"
	"testing"

	"weekband/grid/units"
)

func ExampleParse() {
	c, err := units.Parse("55 °F")
	fmt.Printf("%.6f %v\n", float64(c), err)
	_, err = units.Parse("55")
	fmt.Println(err)
	// Output:
	// 12.777778 <nil>
	// temperature "55" has no unit; write 55 °F or 55 °C
}

func TestParse(t *testing.T) {
	// 55 °F is 12.7777… °C, not 12.8: the definition of the Fahrenheit scale.
	for text, want := range map[string]float64{
		"55 °F": 115.0 / 9, "55F": 115.0 / 9, "55 F": 115.0 / 9, " 70 °F ": 190.0 / 9,
		"12.8 C": 12.8, "12.8°C": 12.8, "-40 F": -40, "285.95 K": 12.8,
	} {
		got, err := units.Parse(text)
		if err != nil || math.Abs(float64(got)-want) > 1e-12 {
			t.Errorf("Parse(%q) = %v, %v; want %v", text, float64(got), err, want)
		}
	}
	for _, text := range []string{"", "55", "F", "warm", "NaN F", "Inf C", "55 X", "-300 C", "1e400 F", "5 5 F"} {
		if got, err := units.Parse(text); err == nil {
			t.Errorf("Parse(%q) = %v, want an error", text, got)
		}
	}
}

func TestWriting(t *testing.T) {
	c, _ := units.Parse("55 °F")
	if got := c.Both(); got != "55 °F (12.8 °C)" {
		t.Errorf("Both() = %q", got)
	}
	if got := units.Celsius(-0.04).String(); got != "0 °C" {
		t.Errorf("-0.04 °C is written %q", got)
	}
}

func TestParseDepth(t *testing.T) {
	for text, want := range map[string]units.Metres{"4 in": 0.1016, "10 cm": 0.1, "0.05 m": 0.05, "50mm": 0.05} {
		if got, err := units.ParseDepth(text); err != nil || math.Abs(float64(got-want)) > 1e-12 {
			t.Errorf("ParseDepth(%q) = %v, %v; want %v", text, got, err, want)
		}
	}
	for _, text := range []string{"4", "deep", "-1 in", "4 km", "4 hands"} {
		if got, err := units.ParseDepth(text); err == nil {
			t.Errorf("ParseDepth(%q) = %v, want an error", text, got)
		}
	}
}

func TestDepthsAreWrittenAsProbesAreMarked(t *testing.T) {
	for m, want := range map[units.Metres][2]string{0.1: {"4 in", "10 cm"}, 0.1016: {"4 in", "10 cm"}, 0.0508: {"2 in", "5 cm"}, 0.025: {"1 in", "2.5 cm"}} {
		if got := [2]string{m.Inches(), m.Centimetres()}; got != want {
			t.Errorf("%v m is %q, want %q", float64(m), got, want)
		}
	}
}

func TestParseDays(t *testing.T) {
	if got, err := units.ParseDays("45 d"); err != nil || got != 45 {
		t.Errorf("ParseDays(45 d) = %v, %v", got, err)
	}
	for _, text := range []string{"45", "45 weeks", "-3 d", ""} {
		if _, err := units.ParseDays(text); err == nil {
			t.Errorf("ParseDays(%q): no error", text)
		}
	}
}

func TestScales(t *testing.T) {
	for _, c := range []struct {
		scale units.Scale
		v     float64
		want  float64
	}{{units.C, 12.8, 12.8}, {units.F, 212, 100}, {units.K, 273.15, 0}, {units.TenthsC, 128, 12.8}, {units.TenthsF, 320, 0}} {
		if got := c.scale.Celsius(c.v); math.Abs(float64(got)-c.want) > 1e-12 {
			t.Errorf("%v of %v = %v, want %v", c.scale, c.v, got, c.want)
		}
		back, err := units.ParseScale(c.scale.String())
		if err != nil || back != c.scale {
			t.Errorf("ParseScale(%q) = %v, %v", c.scale.String(), back, err)
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"55 °F", "12.8C", "NaN F", "+-5 F", "1e9 K"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		c, err := units.Parse(s)
		if err == nil && (math.IsNaN(float64(c)) || math.IsInf(float64(c), 0) || c < units.AbsoluteZero) {
			t.Errorf("Parse(%q) = %v", s, c)
		}
	})
}

func TestParseCellSize(t *testing.T) {
	for text, want := range map[string]units.CellSize{
		"4 km": {Metres: 4000}, "800m": {Metres: 800}, "0.25 deg": {Degrees: 0.25}, "15 arcmin": {Degrees: 0.25},
	} {
		if got, err := units.ParseCellSize(text); err != nil || got != want {
			t.Errorf("ParseCellSize(%q) = %v, %v; want %v", text, got, err, want)
		}
	}
	for _, text := range []string{"4", "0 km", "-1 deg", "4 miles", ""} {
		if _, err := units.ParseCellSize(text); err == nil {
			t.Errorf("ParseCellSize(%q): no error", text)
		}
	}
}
