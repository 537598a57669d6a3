package daychart

import (
	"image/color"
	"math"
	"slices"
	"testing"

	"github.com/lucasb-eyer/go-colorful"

	"weekband/grid/season"
	"weekband/render/canvas"
	"weekband/render/internal/eye"
	"weekband/render/plane"
	"weekband/render/press"
)

// Dots, whiskers and lines keep 3:1 on every ground of the chart, in colour
// and in grey, text 4.5:1 (WCAG 2.2, SC 1.4.11 and 1.4.3).
func TestAgreementContrast(t *testing.T) {
	asIs := func(c color.NRGBA) color.NRGBA { return c }
	for how, seenAs := range map[string]func(color.NRGBA) color.NRGBA{"colour": asIs, "grey": canvas.GreyOf} {
		for where, under := range map[string]color.NRGBA{"open": canvas.BareGround, "a week": weekTone, "two weeks": twoWeeksTone} {
			under = seenAs(under)
			for what, ink := range map[string]color.NRGBA{"dot": dotInk, "unusual dot": unusualInk, "whisker": whiskerInk, "edge": edgeInk, "same day": canvas.LineInk} {
				if got := eye.Contrast(eye.Over(seenAs(ink), under), under); got < 3 {
					t.Errorf("%s: %s on %s has contrast %.2f, want 3", how, what, where, got)
				}
			}
			for what, ink := range map[string]color.NRGBA{"name": canvas.TextInk, "side": canvas.LesserInk} {
				if got := eye.Contrast(seenAs(ink), under); got < 4.5 {
					t.Errorf("%s: %s on %s has contrast %.2f, want 4.5", how, what, where, got)
				}
			}
		}
		if got := eye.Contrast(eye.Over(seenAs(dotInk), seenAs(weekTone)), eye.Over(seenAs(hollow), seenAs(weekTone))); got < 3 {
			t.Errorf("%s: the ring of a hollow dot has contrast %.2f to its inside, want 3", how, got)
		}
	}
	light := func(c color.NRGBA) float64 {
		v, _ := colorful.MakeColor(canvas.GreyOf(c))
		l, _, _ := v.Lab()
		return l
	}
	if a, b, c := light(canvas.BareGround), light(twoWeeksTone), light(weekTone); a-b < 0.02 || b-c < 0.04 {
		t.Errorf("in grey the bands have lightness %.3f, %.3f, %.3f from the outside in", a, b, c)
	}
}

// markScale is how many pixels of the tests' images are one of the layout.
const markScale = 4

// pixelAt returns the colour painted at a place of the layout.
func pixelAt(b *canvas.Bitmap, at plane.Pixel) color.NRGBA {
	return color.NRGBAModel.Convert(b.Painted().At(int(at.X*markScale), int(at.Y*markScale))).(color.NRGBA)
}

func alike(a, b color.NRGBA) bool {
	off := func(x, y uint8) int { return int(max(x, y)) - int(min(x, y)) }
	return max(off(a.R, b.R), off(a.G, b.G), off(a.B, b.B)) <= 3
}

// Every mark stands where its days say: hand-made points, nothing over them.
func TestAgreementMarks(t *testing.T) {
	m := Agreement{Points: []AgreementPoint{
		{Typical: 63, Measured: 66, Low: 55, High: 77, Years: 12},
		{Typical: 90, Measured: 90, Low: 90, High: 90, Years: 1},
		{Typical: 105, Measured: 125, Low: 122, High: 140, Years: 20, Early: 95, Late: 115},
		{Typical: 130, Measured: 120, Low: 110, High: 133, Years: 15, Doubtful: true},
	}}
	for _, width := range []int{360, 1200} {
		p, err := m.Page(width)
		if err != nil {
			t.Fatal(err)
		}
		b := canvas.NewBitmap(p.Layout.Width, p.Layout.Height, markScale)
		p.Draw(b)
		a := newDayAxes(p.Layout.Frame, m.days())
		if a.from != 50 || a.to != 145 { // 55 to 140 and five days on either side
			t.Fatalf("the axes show days %g to %g, want 50 to 145", float64(a.from), float64(a.to))
		}
		for what, c := range map[string]struct {
			x, y season.Day
			want color.NRGBA
		}{
			"the first dot in the week": {63, 66, eye.Over(dotInk, eye.Over(whiskerInk, weekTone))},
			"its whisker, low":          {63, 57, eye.Over(whiskerInk, weekTone)},
			"its whisker, high":         {63, 74, eye.Over(whiskerInk, twoWeeksTone)},
			"beyond its whisker":        {63, 79, canvas.BareGround},
			"an unusual dot":            {105, 125, eye.Over(unusualInk, eye.Over(whiskerInk, canvas.BareGround))},
			"a hollow dot":              {130, 120, eye.Over(hollow, eye.Over(whiskerInk, twoWeeksTone))},
			"the line of the same day":  {115, 115, canvas.LineInk},
			"early within a week":       {115, 110, weekTone},
			"late within two weeks":     {115, 125.5, twoWeeksTone},
			"early by three weeks":      {115, 94, canvas.BareGround},
		} {
			if got := pixelAt(b, a.at(c.x, c.y)); !alike(got, c.want) {
				t.Errorf("%d px: %s is %v, want %v", width, what, got, c.want)
			}
		}
	}
}

// A dot of the legend is as wide as those of its class in the chart.
func TestAgreementLegendSizes(t *testing.T) {
	var m Agreement
	for i := range 80 {
		day := season.Day(60 + i)
		m.Points = append(m.Points, AgreementPoint{Typical: day, Measured: day, Low: day, High: day, Years: 12})
	}
	p, err := m.Page(360)
	if err != nil {
		t.Fatal(err)
	}
	b := canvas.NewBitmap(p.Layout.Width, p.Layout.Height, markScale)
	p.Draw(b)
	u := press.UnitOf(360)
	x := p.Layout.Legend.Left + press.SampleWidth(u)/2
	tall := 0.0
	for _, box := range p.Layout.Boxes {
		if box.Text == "place with 10 years or more" {
			for y := box.Top - 5; y < box.Bottom+5; y += 0.25 {
				if alike(pixelAt(b, plane.Pixel{X: x, Y: y}), eye.Over(dotInk, canvas.Paper)) {
					tall += 0.25
				}
			}
		}
	}
	want := 2 * m.marks(newDayAxes(p.Layout.Frame, m.days()), u)[0].radius
	if math.Abs(tall-want) > 0.6 || want > 0.8*2*u*records[2].radius { // and the dots are smaller than usual
		t.Errorf("the legend's dot is %.2f px high, those of the chart %.2f", tall, want)
	}
}

// A grey chart holds greys only.
func TestAgreementGrey(t *testing.T) {
	p, err := Agreement{Grey: true, Points: []AgreementPoint{
		{Name: "Ardvík", Typical: 60, Measured: 84, Low: 55, High: 85, Years: 12, Early: 50, Late: 70, Doubtful: true},
		{Name: "Farø", Typical: 70, Measured: 71, Low: 71, High: 71, Years: 1},
	}}.Page(360)
	if err != nil {
		t.Fatal(err)
	}
	b := canvas.NewBitmap(p.Layout.Width, p.Layout.Height, 2)
	p.Draw(b)
	for i := 0; i < len(b.Painted().Pix); i += 4 {
		if q := b.Painted().Pix[i : i+3]; q[0] != q[1] || q[1] != q[2] {
			t.Fatalf("pixel %d is %v", i/4, q)
		}
	}
}

// No name covers a dot or another name, and no leader runs through either.
func TestAgreementNamesKeepClear(t *testing.T) {
	var m Agreement
	for i := range 70 {
		day := season.Day(50 + 97*i%83)
		late := season.Day(math.Mod(float64(i)*7.3, 34) - 17)
		m.Points = append(m.Points, AgreementPoint{Name: "Kestrel Down", Typical: day, Measured: day + late, Low: day + late - 9, High: day + late + 9, Years: 1 + i%20})
	}
	for _, width := range []int{320, 360, 700, 1200} {
		p, err := m.Page(width)
		if err != nil {
			t.Fatal(err)
		}
		u := press.UnitOf(float64(width))
		a := newDayAxes(p.Layout.Frame, m.days())
		named := 0
		for _, b := range p.Layout.Boxes {
			if b.Kind != press.PlaceLabel {
				continue
			}
			named++
			for _, k := range m.marks(a, u) {
				if letters := b.Rect.Grow(-0.15 * u); letters.Overlaps(k.box()) { // without the room for accents
					t.Errorf("%d px: %q at %v covers the dot at %v", width, b.Text, b.Rect, k.at)
				}
			}
		}
		if named < 5 {
			t.Errorf("%d px: only %d lines of names", width, named)
		}
	}
}

// Large dots are drawn before small ones, so that none hides another.
func TestAgreementOrder(t *testing.T) {
	m := Agreement{Points: []AgreementPoint{{Years: 1}, {Years: 30, Measured: 3}, {Years: 5}, {Years: 10}}}
	var years []int
	for _, k := range m.marks(newDayAxes(plane.Rect{Right: 400, Bottom: 400}, []season.Day{0}), 13) {
		years = append(years, k.Years)
	}
	if want := []int{10, 30, 5, 1}; !slices.Equal(years, want) {
		t.Errorf("dots of %v years in this order, want %v", years, want)
	}
	for n, want := range map[int]int{1: 0, 2: 0, 3: 1, 9: 1, 10: 2, 40: 2} {
		if got := recordOf(n); got != want {
			t.Errorf("%d years are class %d, want %d", n, got, want)
		}
	}
}

// Months and their marks over New Year, by the calendar: from 12 November
// (day 316) 90 days on to 10 February (day 406 = 41).
func TestDayAxesOverNewYear(t *testing.T) {
	a := newDayAxes(plane.Rect{Left: 10, Top: 20, Right: 910, Bottom: 920}, []season.Day{321, 401})
	if a.from != 316 || a.to != 406 {
		t.Fatalf("days %g to %g, want 316 to 406", float64(a.from), float64(a.to))
	}
	months := ""
	for _, m := range a.months() {
		months += m.month.String()[:3] + " "
	}
	if want := "Nov Dec Jan Feb "; months != want {
		t.Errorf("months %q, want %q", months, want)
	}
	var marks []season.Day
	for _, k := range a.ticks() {
		marks = append(marks, k.day)
	}
	if want := []season.Day{335, 366, 397}; !slices.Equal(marks, want) { // 1 December, January, February
		t.Errorf("marks at %v, want %v", marks, want)
	}
	a.daily = true
	if n := len(a.ticks()); n != 12 { // Nov 15 and 22, four in December and January, Feb 1 and 8
		t.Errorf("%d marks of days, want 12", n)
	}
	if got := a.at(366, 316); math.Abs(got.X-510) > 1e-9 || got.Y != 920 { // 50 days of 10 px
		t.Errorf("1 January against the first day stands at %v, want 510, 920", got)
	}
	if one := newDayAxes(plane.Rect{Right: 100, Bottom: 100}, []season.Day{80}); one.from != 50 || one.to != 110 {
		t.Errorf("one day gives axes from %g to %g, want 50 to 110", float64(one.from), float64(one.to))
	}
}
