package render_test

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"weekband/grid/season"
	"weekband/render/daychart"
	"weekband/render/plane"
	"weekband/render/press"
)

// agreement is a made-up chart: n places with typical days from one to
// another, departures of so many days standard deviation, whiskers of up to
// 20 days.
func agreement(n int, from, to, sd float64) daychart.Agreement {
	r := rand.New(rand.NewPCG(uint64(n), 7))
	m := daychart.Agreement{Caption: merrow.bandMap(1).Caption}
	m.Subtitle = "Summer annual weeds, spring germination. Soil at 4 in (10 cm) warms to 55 °F (12.8 °C)."
	names := []string{"Port Merrow", "Ardvík", "Bellasund", "Čerstvá Lhota", "Great Northern Uplands", "Farø"}
	for i := range n {
		day := from + (to-from)*r.Float64()
		p := daychart.AgreementPoint{
			Name: fmt.Sprintf("%s %d", names[i%len(names)], i), Typical: season.Day(day), Years: 1 + i*7%17,
			Early: season.Day(day - 14), Late: season.Day(day + 14), Doubtful: i%9 == 4,
		}
		p.Measured = p.Typical + season.Day(sd*r.NormFloat64())
		p.Low, p.High = p.Measured, p.Measured
		if p.Years > 1 {
			p.Low, p.High = p.Low-season.Day(20*r.Float64()), p.High+season.Day(20*r.Float64())
		}
		m.Points = append(m.Points, p)
	}
	return m
}

// oneSpot is 80 places that agree to the day.
func oneSpot() daychart.Agreement {
	m := agreement(80, 100, 100, 0)
	for i := range m.Points {
		m.Points[i].Low, m.Points[i].High = 90, 115
	}
	return m
}

func agreements() map[string]daychart.Agreement {
	words := agreement(5, 60, 120, 9)
	words.Title = strings.Repeat("An exceedingly long title that has to be wrapped ", 3)
	words.Points[0].Name = strings.Repeat("Llanfairpwll", 9)
	words.Points[1].Name = ""
	bare := agreement(3, 60, 120, 9)
	bare.Caption = press.Caption{}
	return map[string]daychart.Agreement{
		"one": agreement(1, 80, 90, 8), "three": agreement(3, 70, 110, 8), "twelve": agreement(12, 60, 130, 8),
		"eighty": agreement(80, 41, 161, 8), "one spot": oneSpot(), "over New Year": agreement(25, 330, 400, 8),
		"before New Year": agreement(9, -40, 25, 8), "all year": agreement(60, 1, 365, 10), "long words": words, "no words": bare,
	}
}

func TestAgreementLayout(t *testing.T) {
	for name, m := range agreements() {
		for _, width := range []int{320, 360, 480, 699, 700, 900, 1200, 2400} {
			name := fmt.Sprintf("%s at %d px", name, width)
			l := must(m.Page(width)).Layout
			checkLayout(t, name, l)
			if f := l.Frame; f.Width() != f.Height() || f.Width() < 0.45*float64(width) {
				t.Errorf("%s: the chart is %g × %g px", name, f.Width(), f.Height())
			}
			if l.Legend == (plane.Rect{}) || l.Height > 3.2*float64(width)+600 {
				t.Errorf("%s: legend %v on a page %g px high", name, l.Legend, l.Height)
			}
		}
	}
}

// All months between the first and the last dot are written along both axes
// once a year.
func TestAgreementMonths(t *testing.T) {
	for name, c := range map[string]struct {
		m    daychart.Agreement
		want string
	}{
		"spring":          {agreement(80, 41, 161, 8), "Feb Mar Apr May Jun"},
		"over New Year":   {agreement(25, 330, 400, 8), "Nov Dec Jan Feb"},
		"before New Year": {agreement(9, -40, 25, 8), "Nov Dec Jan Feb"},
	} {
		l := must(c.m.Page(1200)).Layout
		across, up := "", ""
		for _, b := range l.Boxes {
			if b.Kind != press.AxisText || len(b.Text) != 3 {
				continue
			}
			if b.Top > l.Frame.Bottom {
				across += b.Text + " "
			} else {
				up += b.Text + " "
			}
		}
		if !strings.Contains(across, c.want) || !strings.Contains(up, c.want) {
			t.Errorf("%s: months %q across and %q up, want %q in both", name, across, up, c.want)
		}
	}
}

func wordsOf(l press.Layout, kind press.Kind) string {
	var s []string
	for _, b := range l.Boxes {
		if b.Kind == kind {
			s = append(s, b.Text)
		}
	}
	return strings.Join(s, " | ")
}

// The legend explains what occurs, and only that, with counts taken by hand.
func TestAgreementLegend(t *testing.T) {
	plain := daychart.AgreementPoint{Name: "Ardvík", Typical: 90, Measured: 92, Low: 92, High: 92, Years: 1}
	far, doubtful := plain, plain
	far.Name, far.Measured, far.Low, far.High, far.Years = "Farø", 105, 98, 110, 12 // 15 days late, the map's late year is 104
	far.Early, far.Late = 76, 104
	doubtful.Name, doubtful.Doubtful, doubtful.Years = "Wrack", true, 5
	doubtful.Typical, doubtful.Measured, doubtful.Low, doubtful.High = 70, 63, 60, 63 // 7 days early: within a week
	always := []string{"How to read it", "the same day on both", "within a week", "within two weeks"}
	odd := []string{"earliest to latest", "hollow", "outside the map's early and late year", "3 to 9", "10 years"}
	for name, c := range map[string]struct {
		points  []daychart.AgreementPoint
		has     []string
		hasNone []string
	}{
		"one":   {[]daychart.AgreementPoint{plain}, []string{"place with 1 or 2 years"}, append([]string{" of "}, odd...)},
		"three": {[]daychart.AgreementPoint{plain, far, doubtful}, append([]string{"within a week: 2 of 3 places", "within two weeks: 2 of 3 places"}, odd...), nil},
	} {
		l := must(daychart.Agreement{Points: c.points}.Page(1200)).Layout
		got := wordsOf(l, press.LegendText)
		for _, w := range append(always, c.has...) {
			if !strings.Contains(got, w) {
				t.Errorf("%s: no %q in the legend %q", name, w, got)
			}
		}
		for _, w := range c.hasNone {
			if strings.Contains(got, w) {
				t.Errorf("%s: %q in the legend %q", name, w, got)
			}
		}
		axis := wordsOf(l, press.AxisText)
		for _, w := range []string{"typical day on the map", "day the thermometers say: median year", "same day", "a week", "two weeks"} {
			if !strings.Contains(axis, w) {
				t.Errorf("%s: no %q beside the chart: %q", name, w, axis)
			}
		}
	}
}

// The farthest off are named, at most a dozen; every other name is reported.
func TestAgreementNames(t *testing.T) {
	few := agreement(3, 70, 130, 8)
	l := must(few.Page(1200)).Layout
	for _, p := range few.Points {
		if !strings.Contains(wordsOf(l, press.PlaceLabel), p.Name) {
			t.Errorf("of three, %q is not named", p.Name)
		}
	}
	m := agreement(80, 41, 161, 8)
	m.Points[33].Measured += 45
	m.Points[33].High += 45
	for width, least := range map[int]int{360: 7, 1200: 12} {
		l := must(m.Page(width)).Layout
		if named := len(m.Points) - len(l.Dropped); named < least || named > 12 {
			t.Errorf("%d px: %d of 80 are named", width, named)
		}
		first := strings.Fields(m.Points[33].Name)
		if got := wordsOf(l, press.PlaceLabel); !strings.Contains(got, first[len(first)-1]) {
			t.Errorf("%d px: the farthest off, %q, is not among %q", width, m.Points[33].Name, got)
		}
	}
	l = must(oneSpot().Page(900)).Layout
	if got := strings.ReplaceAll(wordsOf(l, press.PlaceLabel), " | ", " "); !strings.HasSuffix(got, "and 79 more") || len(l.Dropped) != 79 {
		t.Errorf("80 places at one spot are named %q, %d reported as dropped", got, len(l.Dropped))
	}
}

func TestAgreementRefusals(t *testing.T) {
	good := daychart.AgreementPoint{Name: "Ardvík", Typical: 360, Measured: 368, Low: 361, High: 372, Years: 4}
	edit := func(f func(*daychart.AgreementPoint)) daychart.Agreement {
		p := good
		f(&p)
		return daychart.Agreement{Points: []daychart.AgreementPoint{good, p}}
	}
	if _, err := edit(func(*daychart.AgreementPoint) {}).Page(900); err != nil {
		t.Fatal(err)
	}
	for want, m := range map[string]daychart.Agreement{
		"give one place":        {},
		"early January":         edit(func(p *daychart.AgreementPoint) { p.Low, p.Measured, p.High = 1, 3, 7 }),
		"from the earliest":     edit(func(p *daychart.AgreementPoint) { p.Low = 369 }),
		"0 years":               edit(func(p *daychart.AgreementPoint) { p.Years = 0 }),
		"after the late year":   edit(func(p *daychart.AgreementPoint) { p.Early, p.Late = 370, 350 }),
		"more than a year":      edit(func(p *daychart.AgreementPoint) { p.Typical, p.Low, p.Measured, p.High = -10, -12, -9, 0 }),
		`point 2 ("Ardvík")`:    edit(func(p *daychart.AgreementPoint) { p.High = 0 }),
		"days from the typical": edit(func(p *daychart.AgreementPoint) { p.Early, p.Late = 1, 30 }),
	} {
		if _, err := m.Page(900); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error %v, want one with %q", err, want)
		}
	}
	if _, err := agreement(3, 60, 90, 5).Page(100); err == nil || !strings.Contains(err.Error(), "320 to 6000") {
		t.Errorf("a page 100 px wide: %v", err)
	}
}

// The same chart gives the same bytes; the order of the points does not
// matter to what is named.
func TestAgreementIsDeterministic(t *testing.T) {
	m := agreement(80, 41, 161, 8)
	want := encode(t, must(m.Page(700)), 1)
	if !bytes.Equal(encode(t, must(m.Page(700)), 1), want) {
		t.Error("the same chart gives other bytes")
	}
	names := wordsOf(must(m.Page(700)).Layout, press.PlaceLabel)
	rand.New(rand.NewPCG(3, 3)).Shuffle(len(m.Points), func(i, k int) { m.Points[i], m.Points[k] = m.Points[k], m.Points[i] })
	if got := wordsOf(must(m.Page(700)).Layout, press.PlaceLabel); got != names {
		t.Errorf("shuffled points are named %q, were %q", got, names)
	}
}

// A chart of one place, written as a picture.
func ExampleAgreement() {
	page, err := daychart.Agreement{
		Caption: press.Caption{Title: "Map and thermometers, Merrow"},
		Points: []daychart.AgreementPoint{
			{Name: "Ardvík", Typical: season.Date(3, 21), Measured: season.Date(3, 25), Low: season.Date(3, 12), High: season.Date(4, 9), Years: 11},
		},
	}.Page(900)
	if err != nil {
		fmt.Println(err)
		return
	}
	var picture bytes.Buffer
	if err := page.PNG(&picture, 2); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(wordsOf(page.Layout, press.PlaceLabel))
	// Output: Ardvík
}
