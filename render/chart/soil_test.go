package chart

import (
	"math"
	"strings"
	"testing"

	"weekband/grid/season"
)

// The points of the soil curve, its envelope and its table are those of the
// region's year.
func TestSoilIsTheYearOfTheRegion(t *testing.T) {
	r := region("Orrendale", 0)
	c, ok := Soil(nil, &r, measured)
	if !ok {
		t.Fatal("no chart")
	}
	o := decoded(t, c)
	var curve, low, width [][2]float64
	bars := map[string]float64{}
	for _, s := range o.Series {
		for _, d := range s.Data {
			switch s.Name {
			case "curve":
				curve = append(curve, d.Value)
			case "low":
				low = append(low, d.Value)
			case "width":
				width = append(width, d.Value)
			}
		}
		if n := len(s.Data); n == 2 {
			bars[s.Name] += s.Data[1].Value[0] - s.Data[0].Value[0]
		}
	}
	// A crossing 1.2816 standard deviations of 11 days early, at the slope there.
	slope := 11 * 2 * math.Pi / season.YearDays * math.Sin(math.Acos((15-12.8)/11))
	usual := 1.2816 * 11 * slope
	for i, p := range curve {
		if want := r.Soil.At(season.Day(p[0])); math.Abs(p[1]-want) > 0.006 {
			t.Errorf("day %v: %v °C, want %v", p[0], p[1], want)
		}
		if math.Abs(low[i][1]-(p[1]-usual)) > 0.02 || math.Abs(width[i][1]-2*usual) > 0.02 {
			t.Errorf("day %v: eight years in ten from %v, %v wide; want %v either way", p[0], low[i][1], width[i][1], usual)
		}
	}
	if curve[0][0] != 1 || curve[len(curve)-1][0] != 366 || math.Round(100*bars["ahead"]) != 2100 || math.Round(100*bars["ontime"]) != 3000 || math.Round(100*bars["catchup"]) != 4000 {
		t.Errorf("from %v to %v, stretches %v", curve[0], curve[len(curve)-1], bars)
	}
	for _, want := range []string{"Orrendale soil", "typically in the week of " + r.Median.Week().String(), "coldest about Jan 25, 39 °F (4 °C)", "warmest about Jul 26, 79 °F (26 °C)"} {
		if !strings.Contains(strings.ReplaceAll(c.Alt, "\u00a0", " "), want) {
			t.Errorf("%q lacks %q", c.Alt, want)
		}
	}
}

// Over New Year the stretches keep their length and lie within the year shown.
func TestStretchesOverNewYearKeepTheirLength(t *testing.T) {
	r := region("Sôlenne", -60)
	if r.Calendar.AheadFrom > 1 {
		t.Fatalf("the region begins on %v, want before New Year", r.Calendar.AheadFrom)
	}
	c, _ := Soil(nil, &r, measured)
	o := decoded(t, c)
	start := o.Series[0].Data[0].Value[0]
	length := 0.0
	for _, s := range o.Series[3:] {
		from, to := s.Data[0].Value[0], s.Data[1].Value[0]
		if from < start || to > start+season.YearDays || to <= from {
			t.Errorf("%s from %v to %v in a year from %v", s.Name, from, to, start)
		}
		length += to - from
	}
	if math.Abs(length-91) > 0.03 || len(o.Series) != 6 {
		t.Errorf("%d series, stretches of %v days; want 3 and 3, and 91 days", len(o.Series), length)
	}
}
