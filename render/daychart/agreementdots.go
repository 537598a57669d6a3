package daychart

import (
	"cmp"
	"image/color"
	"math"
	"slices"

	"weekband/render/canvas"
	"weekband/render/plane"
	"weekband/render/press"
)

// Colours of the dots. They let what lies under them shine through and keep
// 3:1 on all grounds of the chart.
var (
	dotInk     = withAlpha(canvas.OKLCh(0.42, 0.10, 245), 215)
	unusualInk = withAlpha(canvas.OKLCh(0.47, 0.15, 32), 225)
	whiskerInk = withAlpha(canvas.OKLCh(0.42, 0.06, 245), 185)
	dotRim     = color.NRGBA{R: 255, G: 255, B: 255, A: 200}
	hollow     = color.NRGBA{R: 255, G: 255, B: 255, A: 215}
)

func withAlpha(c color.NRGBA, a uint8) color.NRGBA {
	c.A = a
	return c
}

// record is a class of how many years a thermometer has measured.
type record struct {
	from   int     // years
	radius float64 // of the dot, in units
}

// records from the shortest to the longest, in the order of their words in a
// Language.
var records = [...]record{
	{from: 1, radius: 0.22},
	{from: 3, radius: 0.32},
	{from: 10, radius: 0.43},
}

// recordOf returns the index of the class of so many years.
func recordOf(years int) int {
	i := 0
	for k, r := range records {
		if years >= r.from {
			i = k
		}
	}
	return i
}

// mark is a point on the page.
type mark struct {
	AgreementPoint
	at        plane.Pixel
	low, high plane.Pixel // ends of the whisker
	radius    float64     // px
}

// marks returns the points in the order of drawing: the largest dots first,
// among those the nearest to the line, so that what is far off lies on top.
func (m Agreement) marks(a dayAxes, u float64) []mark {
	scale := dotScale(len(m.Points), a, u)
	out := make([]mark, len(m.Points))
	for i, p := range m.Points {
		out[i] = mark{
			AgreementPoint: p, at: a.at(p.Typical, p.Measured),
			low: a.at(p.Typical, p.Low), high: a.at(p.Typical, p.High),
			radius: u * scale * records[recordOf(p.Years)].radius,
		}
	}
	slices.SortStableFunc(out, func(a, b mark) int {
		return cmp.Or(cmp.Compare(b.radius, a.radius), cmp.Compare(math.Abs(a.departure()), math.Abs(b.departure())))
	})
	return out
}

// dotScale makes dots smaller when many stand in a small frame or when a week
// is short: the largest span no more than nine days.
func dotScale(n int, a dayAxes, u float64) float64 {
	crowd := math.Sqrt(1.6 * a.frame.Width() / u / float64(n))
	weeks := 4.5 * a.perDay() / (u * records[len(records)-1].radius)
	return max(0.6, min(1, crowd, weeks))
}

// dots draws all whiskers, then all dots.
func dots(p *press.Page, marks []mark, u float64) {
	var whiskers plane.Path
	for _, k := range marks {
		if k.low.Y-k.high.Y > 0.5 {
			whiskers.Add(k.low, k.high)
		}
	}
	p.Stroke(&whiskers, whiskerPen(u))
	for _, k := range marks {
		p.Add(func(c canvas.Canvas) { k.draw(c, u) })
	}
}

func whiskerPen(u float64) canvas.Pen { return canvas.Pen{Color: whiskerInk, Width: max(1, 0.075*u)} }

// draw draws a dot: round, or a lozenge when the median lies outside the
// map's early and late year; hollow when the map is less sure.
func (k mark) draw(c canvas.Canvas, u float64) {
	shape, ink := k.shape(), dotInk
	if k.unusual() {
		ink = unusualInk
	}
	if k.Doubtful {
		c.Fill(shape, hollow)
		c.Stroke(shape, canvas.Pen{Color: ink, Width: max(1.2, 0.12*u)})
		return
	}
	c.Stroke(shape, canvas.Pen{Color: dotRim, Width: max(1, 0.11*u)})
	c.Fill(shape, ink)
}

// shape is the outline of a dot. A lozenge has the area of the circle.
func (k mark) shape() *plane.Path {
	var p plane.Path
	if k.unusual() {
		p.AddRing(plane.Polygon(k.at, k.radius*math.Sqrt(math.Pi/2), 4)...)
	} else {
		p.AddRing(plane.Polygon(k.at, k.radius, 24)...)
	}
	return &p
}

// box is the room a dot takes up.
func (k mark) box() plane.Rect { return k.shape().Bounds() }
