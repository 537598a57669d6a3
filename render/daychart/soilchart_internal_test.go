package daychart

import (
	"image/color"
	"math"
	"testing"

	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/grid/units"
	"weekband/render/canvas"
	"weekband/render/internal/eye"
	"weekband/render/plane"
	"weekband/render/wording"
)

// The strips of a calendar lie where its days are: measured on the page by
// the months above them.
func TestStripsLieOnTheirDays(t *testing.T) {
	rows := []CalendarRow{{Calendar: status.Calendar{AheadFrom: -20, OntimeFrom: 10, OntimeTo: 40, CatchupTo: 80}}}
	a := AxisAround(rows, wording.English(), 100, 500)
	if a.from != season.Date(12, 1)-365 || a.to != season.Date(4, 1) {
		t.Errorf("axis from %v to %v, want 1 December to 1 April", float64(a.from), float64(a.to))
	}
	if got := a.spans(-20, 10); len(got) != 1 || math.Abs(got[0][0]-a.x(-20)) > 1e-9 || math.Abs(got[0][1]-a.x(10)) > 1e-9 {
		t.Errorf("spans %v", got)
	}
	year := AxisAround(append(rows, CalendarRow{Calendar: status.Calendar{AheadFrom: 200, OntimeFrom: 220, OntimeTo: 240, CatchupTo: 330}}), wording.English(), 0, 365)
	if year.from != 1 || year.to != 366 {
		t.Errorf("axis of a whole year from %v to %v", year.from, year.to)
	}
	if got := year.spans(-20, 10); len(got) != 2 || got[0] != [2]float64{0, 9} || got[1] != [2]float64{344, 365} {
		t.Errorf("over New Year: %v", got)
	}
}

// The curve of a chart meets its threshold at the dot, and °F and °C stand at
// the same heights.
func TestSoilChartScales(t *testing.T) {
	days := make([]float64, 365)
	for i := range days {
		days[i] = 0.1 * float64(i)
	}
	c := newSoilChart(SoilYear{Days: days, Threshold: 20, Calendar: status.Calendar{OntimeTo: 201}}, wording.English(), 13, plane.Rect{Right: 800, Bottom: 400})
	if got := c.at(201); math.Abs(got-20) > 1e-9 {
		t.Errorf("the curve is at %v °C on its crossing day", got)
	}
	if a, b := c.y(float64(units.F.Celsius(50))), c.y(10); math.Abs(a-b) > 1e-9 {
		t.Errorf("50 °F at %v, 10 °C at %v", a, b)
	}
	if math.Abs(c.y(c.low)-c.frame.Bottom) > 1e-9 || math.Abs(c.y(c.high)-c.frame.Top) > 1e-9 {
		t.Error("the ends of the axis are not the frame's")
	}
}

// The chart of a region's year. The grey lines of its grid are left out: they
// only guide the eye from the numbers, which stand at both sides.
func TestSoilChartContrast(t *testing.T) {
	for how, as := range map[string]func(color.NRGBA) color.NRGBA{"colour": func(c color.NRGBA) color.NRGBA { return c }, "grey": canvas.GreyOf} {
		for what, c := range map[string]struct {
			a, b  color.NRGBA
			least float64
		}{
			"curve on its band":         {yearCurve, yearBand, 3},
			"edge of the band, inside":  {yearEdge, yearBand, 3},
			"edge of the band, outside": {yearEdge, canvas.BareGround, 3},
			"threshold on the band":     {LevelInk, yearBand, 3},
			"threshold beside the band": {LevelInk, canvas.BareGround, 3},
			"words of the threshold":    {LevelInk, canvas.HaloInk, 4.5},
			"months and degrees":        {canvas.LesserInk, canvas.Paper, 4.5},
		} {
			if got := eye.Contrast(as(c.a), as(c.b)); got < c.least {
				t.Errorf("%s: %s has contrast %.2f, want %.1f", how, what, got, c.least)
			}
		}
	}
}
