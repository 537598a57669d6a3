package press

import "weekband/render/plane"

// Layout says what stands where on a finished page, in layout pixels from its
// top left corner.
type Layout struct {
	Width, Height float64
	Frame         plane.Rect   // the map or the chart
	Legend        plane.Rect   // zero when there is none
	Logo          plane.Rect   // zero when there is none
	Insets        []plane.Rect // small maps, in the frame or below it
	Boxes         []Box        // every text
	Dropped       []string     // names of regions and places that found no room
}

// Box is one text on the page and the room it takes.
type Box struct {
	Kind Kind
	Text string
	plane.Rect
}

// Kind says what a text is, of all pages that there are.
type Kind uint8

const (
	TitleText Kind = iota
	LegendText
	FooterText
	AxisText // beside a chart
	RegionLabel
	PlaceLabel
	GraticuleLabel
	ScaleLabel
	WeekLabel
	ChartLabel // in a chart
	NorthLabel // the N of an arrow, on maps where north is not up
	InsetText  // title and scale of an inset, in its box
)
