package render

import (
	"errors"
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"weekband/render/canvas"
	"weekband/render/daychart"
	"weekband/render/plane"
	"weekband/render/press"
)

// RegionSheet is a handout of one region: where it lies, its year of soil, its
// weeks and its numbers.
type RegionSheet struct {
	press.Caption
	Map     BandMap          // for the locator
	Shape   orb.MultiPolygon // of the region, whole: with what the territory shows in insets
	Soil    daychart.SoilYear
	Chart   string // what the chart shows, a sentence
	Facts   []Fact
	Guide   []string
	Sure    string
	Address string
	Grey    bool
}

// Fact is a number of a region and what it is.
type Fact struct {
	Label, Value string
	Best         bool // set in bold
}

// RegionSheet returns the page of a region's handout, 900 by 1200 layout
// pixels. It returns an error when the atlas has another width, the region has
// no shape, or the soil has not 365 days.
func (a *Atlas) RegionSheet(s RegionSheet) (*Map, error) {
	switch {
	case a.width != handoutWidth:
		return nil, fmt.Errorf("render: a handout on an atlas %g px wide; want %d", a.width, handoutWidth)
	case len(s.Shape) == 0:
		return nil, errors.New("render: a handout of a region without a shape")
	case len(s.Soil.Days) != 365:
		return nil, fmt.Errorf("render: a year of %d days; want 365", len(s.Soil.Days))
	}
	code, err := newCode(s.Address)
	if err != nil {
		return nil, err
	}
	u := a.unit
	margin := math.Round(1.2 * u)
	p := a.blank(handoutWidth, handoutHeight, s.Grey)
	room := plane.Rect{Left: margin, Right: handoutWidth - margin, Top: margin, Bottom: handoutHeight - margin}
	room.Top = p.Header(s.Caption, u, room)
	words := Handout{Guide: s.Guide, Sure: s.Sure}
	foot := measure(func(q *press.Page, r plane.Rect) float64 {
		return footer(q, s.Caption, a.Language.Map.Projection(a.Projection), u, r)
	}, room)
	height := measure(func(q *press.Page, r plane.Rect) float64 { return words.words(q, a.Language, u, r, code) }, room)

	left, right := room, room
	left.Right = room.Left + float64(0.52*room.Width())
	right.Left = left.Right + float64(1.4*u)
	aspect := max(0.45, min(1.1, a.bounds.Height()/a.bounds.Width()))
	left.Bottom = math.Round(left.Top + float64(left.Width()*aspect))
	bottom := max(a.locate(p, s, left), facts(p.Page, s.Facts, u, right))

	chart := plane.Rect{Left: room.Left, Right: room.Right, Top: bottom + float64(1.2*u), Bottom: room.Bottom - foot - height - float64(2.2*u)}
	chart.Top = p.Paragraph(press.LegendText, s.Chart, canvas.Text{At: chart.TopLeft(), Font: canvas.Font{Face: canvas.Bold, Size: press.SmallSize(u)}, Color: canvas.TextInk}, chart.Width())
	statusKey(p.Page, a.Language, u, chart, chart.Top-canvas.Font{Size: press.SmallSize(u)}.Line())
	chart.Bottom = min(chart.Bottom, chart.Top+float64(0.66*chart.Width()))
	if chart.Height() < 0.2*chart.Width() {
		return nil, errors.New("render: the words of the handout leave no room for its chart; shorten title or credits")
	}
	s.Soil.Draw(p.Page, a.Language, u, chart)
	words.words(p.Page, a.Language, u, plane.Rect{Left: room.Left, Right: room.Right, Top: room.Bottom - foot - height - float64(0.8*u)}, code)
	footer(p.Page, s.Caption, a.Language.Map.Projection(a.Projection), u, plane.Rect{Left: room.Left, Right: room.Right, Top: room.Bottom - foot})
	return p, nil
}

// locate draws the territory and its insets without names, and the region in
// it, and returns the y under them.
func (a *Atlas) locate(p *Map, s RegionSheet, frame plane.Rect) float64 {
	f := s.Map.figure(a.Language)
	f.relief = false // too small to show it
	scene := a.scene(sceneKey{frame: frame, unit: a.unit * 0.8, plain: true})
	p.Layout.Frame, p.view = frame, scene.view
	drawGround(p.Page, scene, f)
	drawLines(p.Page, scene)
	for _, i := range scene.insets {
		p.inset(i, f)
	}
	outline := scene.outlineIn(s.Shape)
	p.Add(func(c canvas.Canvas) {
		c.Stroke(outline, canvas.Pen{Color: canvas.Paper, Width: 0.42 * a.unit})
		c.Stroke(outline, canvas.Pen{Color: daychart.LevelInk, Width: 0.22 * a.unit})
	})
	b := outline.Bounds()
	if b.Width() < a.unit && b.Height() < a.unit { // too small to see: a ring around it
		var ring plane.Path
		ring.AddRing(plane.Polygon(b.Center(), 1.1*a.unit, 32)...)
		p.Stroke(&ring, canvas.Pen{Color: daychart.LevelInk, Width: 0.2 * a.unit})
	}
	return max(frame.Bottom, scene.bottom)
}

// facts writes labels and values and returns the y under them.
func facts(p *press.Page, list []Fact, u float64, room plane.Rect) float64 {
	y := room.Top
	for _, f := range list {
		y = p.Paragraph(press.LegendText, f.Label, canvas.Text{At: plane.Pixel{X: room.Left, Y: y}, Font: canvas.Font{Face: canvas.Regular, Size: press.SmallSize(u)}, Color: canvas.LesserInk}, room.Width())
		face := canvas.Regular
		if f.Best {
			face = canvas.Bold
		}
		y = p.Paragraph(press.LegendText, f.Value, canvas.Text{At: plane.Pixel{X: room.Left, Y: y}, Font: canvas.Font{Face: face, Size: 1.15 * u}, Color: canvas.TextInk}, room.Width()) + float64(0.4*u)
	}
	return y
}
