package render

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/grid/units"
	"weekband/render/carto"
	"weekband/render/wording"
)

// SoilYear is the typical year of soil at a place, for a chart.
type SoilYear struct {
	Days      []float64     // °C at 0:00 of each day, 1 January first
	Spread    units.Delta   // how far eight years in ten keep to it, either way
	Threshold units.Celsius // drawn as a line
	Calendar  status.Calendar
}

// draw draws the year as a chart in a room at a unit of u pixels: °F at the
// left, °C at the right, months and the strip of its weeks below.
func (y SoilYear) draw(p *Page, lang *wording.Language, u float64, room Rect) {
	newSoilChart(y, lang, u, room).draw(p)
}

// soilChart is the axes of a SoilYear in a frame.
type soilChart struct {
	SoilYear
	yearAxis
	frame     Rect
	low, high float64 // °C at the bottom and the top
	u         float64
}

// newSoilChart lays the axes out in a room: °F at the left, °C at the right,
// months below.
func newSoilChart(y SoilYear, lang *wording.Language, u float64, room Rect) soilChart {
	c := soilChart{SoilYear: y, u: u, low: math.Inf(1), high: math.Inf(-1)}
	for _, t := range y.Days {
		c.low, c.high = min(c.low, t), max(c.high, t)
	}
	spread := float64(y.Spread)
	c.low, c.high = 5*math.Floor((c.low-spread)/5), 5*math.Ceil((c.high+spread)/5)
	gutter := float64(2.6 * u)
	c.frame = Rect{Left: room.Left + gutter, Right: room.Right - gutter, Top: room.Top + float64(1.4*u), Bottom: room.Bottom - float64(3.2*u)}
	c.yearAxis = newYearAxis(lang, c.frame.Left, c.frame.Right)
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
func (c soilChart) draw(p *Page) {
	p.fill(rectPath(c.frame), look{tone: landColor}, c.u)
	c.lines(p)
	c.band(p)
	c.curve(p)
	c.threshold(p)
	top := c.frame.Bottom + float64(0.3*c.u)
	top = c.head(p, c.u, top)
	c.strip(p, c.u, c.Calendar, top, 1.5*c.u)
	p.stroke(rectPath(c.frame), Pen{Color: borderInk, Width: 1})
}

// lines draws the grid and writes the temperatures of both sides.
func (c soilChart) lines(p *Page) {
	font := Font{Face: Regular, Size: max(minText, 0.8*c.u)}
	c.ticks(p, c.u, c.frame.Top, c.frame.Bottom)
	var grid Path
	for t := c.low; t <= c.high; t += 5 {
		grid.Add(carto.Pixel{X: c.frame.Left, Y: c.y(t)}, carto.Pixel{X: c.frame.Right, Y: c.y(t)})
		p.text(AxisText, Text{At: carto.Pixel{X: c.frame.Right + float64(0.4*c.u), Y: c.y(t) + font.middle()}, String: signed(t), Font: font, Color: lessColor})
	}
	p.stroke(&grid, Pen{Color: gridColor, Width: max(0.6, c.u*0.05)})
	low, high := units.Celsius(c.low).Fahrenheit(), units.Celsius(c.high).Fahrenheit()
	for f := 10 * math.Ceil(low/10); f <= high; f += 10 {
		t := float64(units.F.Celsius(f))
		p.text(AxisText, Text{At: carto.Pixel{X: c.frame.Left - float64(0.4*c.u), Y: c.y(t) + font.middle()}, Anchor: End, String: signed(f), Font: font, Color: lessColor})
	}
	for _, side := range []struct {
		x      float64
		anchor Anchor
		text   string
	}{{c.frame.Left - float64(0.4*c.u), End, "°F"}, {c.frame.Right + float64(0.4*c.u), Start, "°C"}} {
		p.text(AxisText, Text{At: carto.Pixel{X: side.x, Y: c.frame.Top - float64(0.5*c.u)}, Anchor: side.anchor, String: side.text, Font: font, Color: lessColor})
	}
}

// Colours of the chart: the band of usual years is pale within edges, the
// curve dark (contrast 3:1 and more on the band).
var (
	yearBand  = oklch(0.87, 0.045, 230)
	yearEdge  = oklch(0.54, 0.05, 235)
	yearCurve = oklch(0.36, 0.09, 245)
	levelInk  = oklch(0.50, 0.16, 35)
)

// band fills what holds eight years in ten.
func (c soilChart) band(p *Page) {
	var upper, lower []carto.Pixel
	for i := 0; i <= season.YearDays; i += 5 {
		d := season.Day(1 + i)
		x, t := c.x(d), c.at(d)
		upper = append(upper, carto.Pixel{X: x, Y: max(c.y(t+float64(c.Spread)), c.frame.Top)})
		lower = append(lower, carto.Pixel{X: x, Y: min(c.y(t-float64(c.Spread)), c.frame.Bottom)})
	}
	var path, edges Path
	edges.Add(upper...)
	edges.Add(lower...)
	ring := slices.Clone(lower)
	slices.Reverse(ring)
	path.AddRing(append(ring, upper...)...)
	p.fill(&path, look{tone: yearBand}, c.u)
	p.stroke(&edges, Pen{Color: yearEdge, Width: max(0.8, 0.06*c.u)})
}

func (c soilChart) curve(p *Page) {
	var points []carto.Pixel
	for i := 0; i <= season.YearDays; i += 5 {
		d := season.Day(1 + i)
		points = append(points, carto.Pixel{X: c.x(d), Y: c.y(c.at(d))})
	}
	var path Path
	path.Add(points...)
	p.stroke(&path, Pen{Color: yearCurve, Width: 0.17 * c.u})
}

// threshold draws the level and the typical crossing on it.
func (c soilChart) threshold(p *Page) {
	y := c.y(float64(c.Threshold))
	p.stroke(rule(c.frame.Left, c.frame.Right, y), Pen{Color: levelInk, Width: 0.1 * c.u})
	font := Font{Face: Bold, Size: small(c.u)}
	x, anchor := c.frame.Right-float64(0.5*c.u), End
	if c.x(c.Calendar.OntimeTo.In()) > (c.frame.Left+c.frame.Right)/2 {
		x, anchor = c.frame.Left+float64(0.5*c.u), Start
	}
	p.text(ChartLabel, Text{At: carto.Pixel{X: x, Y: y - float64(0.35*c.u)}, Anchor: anchor, String: c.Threshold.Both(), Font: font, Color: levelInk, Halo: 0.25 * c.u})
	at := carto.Pixel{X: c.x(c.Calendar.OntimeTo.In()), Y: y}
	var dot Path
	dot.AddRing(circle(at, 0.42*c.u, 24)...)
	p.fill(&dot, look{tone: levelInk}, c.u)
}

// signed writes a whole number with a true minus sign.
func signed(v float64) string { return strings.Replace(strconv.Itoa(int(v)), "-", "−", 1) }
