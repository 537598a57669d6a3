package daychart

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/grid/units"
	"weekband/render/canvas"
	"weekband/render/plane"
	"weekband/render/press"
	"weekband/render/wording"
)

// SoilYear is the typical year of soil at a place, for a chart.
type SoilYear struct {
	Days      []float64     // °C at 0:00 of each day, 1 January first
	Spread    units.Delta   // how far eight years in ten keep to it, either way
	Threshold units.Celsius // drawn as a line
	Calendar  status.Calendar
}

// Draw draws the year as a chart in a room at a unit of u pixels: °F at the
// left, °C at the right, months and the strip of its weeks below.
func (y SoilYear) Draw(p *press.Page, lang *wording.Language, u float64, room plane.Rect) {
	newSoilChart(y, lang, u, room).draw(p)
}

// soilChart is the axes of a SoilYear in a frame.
type soilChart struct {
	SoilYear
	YearAxis
	frame     plane.Rect
	low, high float64 // °C at the bottom and the top
	u         float64
}

// newSoilChart lays the axes out in a room: °F at the left, °C at the right,
// months below.
func newSoilChart(y SoilYear, lang *wording.Language, u float64, room plane.Rect) soilChart {
	c := soilChart{SoilYear: y, u: u, low: math.Inf(1), high: math.Inf(-1)}
	for _, t := range y.Days {
		c.low, c.high = min(c.low, t), max(c.high, t)
	}
	spread := float64(y.Spread)
	c.low, c.high = 5*math.Floor((c.low-spread)/5), 5*math.Ceil((c.high+spread)/5)
	gutter := float64(2.6 * u)
	c.frame = plane.Rect{Left: room.Left + gutter, Right: room.Right - gutter, Top: room.Top + float64(1.4*u), Bottom: room.Bottom - float64(3.2*u)}
	c.YearAxis = NewYearAxis(lang, c.frame.Left, c.frame.Right)
	return c
}

func (c soilChart) y(t float64) float64 {
	return c.frame.Bottom - float64((t-c.low)/(c.high-c.low)*c.frame.Height())
}

// at returns the temperature of a moment.
func (c soilChart) at(d season.Day) float64 {
	x := float64(d.In()) - 1
	i := int(x)
	return c.Days[i] + float64((x-float64(i))*(c.Days[(i+1)%len(c.Days)]-c.Days[i]))
}

// draw draws the chart.
func (c soilChart) draw(p *press.Page) {
	p.Fill(plane.RectPath(c.frame), canvas.Look{Tone: canvas.BareGround}, c.u)
	c.lines(p)
	c.band(p)
	c.curve(p)
	c.threshold(p)
	top := c.frame.Bottom + float64(0.3*c.u)
	top = c.Head(p, c.u, top)
	c.Strip(p, c.u, c.Calendar, top, 1.5*c.u)
	p.Stroke(plane.RectPath(c.frame), canvas.Pen{Color: canvas.FineInk, Width: 1})
}

// lines draws the grid and writes the temperatures of both sides.
func (c soilChart) lines(p *press.Page) {
	font := canvas.Font{Face: canvas.Regular, Size: max(press.MinText, 0.8*c.u)}
	c.Ticks(p, c.u, c.frame.Top, c.frame.Bottom)
	var grid plane.Path
	for t := c.low; t <= c.high; t += 5 {
		grid.Add(plane.Pixel{X: c.frame.Left, Y: c.y(t)}, plane.Pixel{X: c.frame.Right, Y: c.y(t)})
		p.Text(press.AxisText, canvas.Text{At: plane.Pixel{X: c.frame.Right + float64(0.4*c.u), Y: c.y(t) + font.Middle()}, String: signed(t), Font: font, Color: canvas.LesserInk})
	}
	p.Stroke(&grid, canvas.Pen{Color: canvas.GuideInk, Width: max(0.6, c.u*0.05)})
	low, high := units.Celsius(c.low).Fahrenheit(), units.Celsius(c.high).Fahrenheit()
	for f := 10 * math.Ceil(low/10); f <= high; f += 10 {
		t := float64(units.F.Celsius(f))
		p.Text(press.AxisText, canvas.Text{At: plane.Pixel{X: c.frame.Left - float64(0.4*c.u), Y: c.y(t) + font.Middle()}, Anchor: canvas.End, String: signed(f), Font: font, Color: canvas.LesserInk})
	}
	for _, side := range []struct {
		x      float64
		anchor canvas.Anchor
		text   string
	}{{c.frame.Left - float64(0.4*c.u), canvas.End, "°F"}, {c.frame.Right + float64(0.4*c.u), canvas.Start, "°C"}} {
		p.Text(press.AxisText, canvas.Text{At: plane.Pixel{X: side.x, Y: c.frame.Top - float64(0.5*c.u)}, Anchor: side.anchor, String: side.text, Font: font, Color: canvas.LesserInk})
	}
}

// Colours of the chart: the band of usual years is pale within edges, the
// curve dark (contrast 3:1 and more on the band).
var (
	yearBand  = canvas.OKLCh(0.87, 0.045, 230)
	yearEdge  = canvas.OKLCh(0.54, 0.05, 235)
	yearCurve = canvas.OKLCh(0.36, 0.09, 245)
	LevelInk  = canvas.OKLCh(0.50, 0.16, 35)
)

// band fills what holds eight years in ten.
func (c soilChart) band(p *press.Page) {
	var upper, lower []plane.Pixel
	for i := 0; i <= season.YearDays; i += 5 {
		d := season.Day(1 + i)
		x, t := c.x(d), c.at(d)
		upper = append(upper, plane.Pixel{X: x, Y: max(c.y(t+float64(c.Spread)), c.frame.Top)})
		lower = append(lower, plane.Pixel{X: x, Y: min(c.y(t-float64(c.Spread)), c.frame.Bottom)})
	}
	var path, edges plane.Path
	edges.Add(upper...)
	edges.Add(lower...)
	ring := slices.Clone(lower)
	slices.Reverse(ring)
	path.AddRing(append(ring, upper...)...)
	p.Fill(&path, canvas.Look{Tone: yearBand}, c.u)
	p.Stroke(&edges, canvas.Pen{Color: yearEdge, Width: max(0.8, 0.06*c.u)})
}

func (c soilChart) curve(p *press.Page) {
	var points []plane.Pixel
	for i := 0; i <= season.YearDays; i += 5 {
		d := season.Day(1 + i)
		points = append(points, plane.Pixel{X: c.x(d), Y: c.y(c.at(d))})
	}
	var path plane.Path
	path.Add(points...)
	p.Stroke(&path, canvas.Pen{Color: yearCurve, Width: 0.17 * c.u})
}

// threshold draws the level and the typical crossing on it.
func (c soilChart) threshold(p *press.Page) {
	y := c.y(float64(c.Threshold))
	p.Stroke(plane.LevelLine(c.frame.Left, c.frame.Right, y), canvas.Pen{Color: LevelInk, Width: 0.1 * c.u})
	font := canvas.Font{Face: canvas.Bold, Size: press.SmallSize(c.u)}
	x, anchor := c.frame.Right-float64(0.5*c.u), canvas.End
	if c.x(c.Calendar.OntimeTo.In()) > (c.frame.Left+c.frame.Right)/2 {
		x, anchor = c.frame.Left+float64(0.5*c.u), canvas.Start
	}
	p.Text(press.ChartLabel, canvas.Text{At: plane.Pixel{X: x, Y: y - float64(0.35*c.u)}, Anchor: anchor, String: c.Threshold.Both(), Font: font, Color: LevelInk, Halo: 0.25 * c.u})
	at := plane.Pixel{X: c.x(c.Calendar.OntimeTo.In()), Y: y}
	var dot plane.Path
	dot.AddRing(plane.Polygon(at, 0.42*c.u, 24)...)
	p.Fill(&dot, canvas.Look{Tone: LevelInk}, c.u)
}

// signed writes a whole number with a true minus sign.
func signed(v float64) string { return strings.Replace(strconv.Itoa(int(v)), "-", "−", 1) }
