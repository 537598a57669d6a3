package calibration

import (
	"slices"

	"weekband/grid"
	"weekband/grid/season"
	"weekband/grid/soil"
	"weekband/grid/units"
)

// nodeDegrees is the distance between the nodes of a Layer. Between them the
// parts of a node are linear: at most 0.03 K off, next to a station.
const nodeDegrees = 0.25

// Layer answers for the cells of a grid what a Model does for their centres,
// many times faster. It does not change and may be used by several goroutines.
type Layer struct {
	model      *Model
	grid       grid.Grid
	box        grid.Box // of the nodes
	rows, cols int
	lon, lat   float64 // distance between nodes, degrees
	nodes      []node
}

// Default is the Layer without calibration stations: soil.DefaultOffset
// everywhere, as wrong as it is at the stations of the table US.
func Default(g grid.Grid) *Layer { return &Layer{model: US(), grid: g} }

// Over lays the model over a grid.
func (m *Model) Over(g grid.Grid) *Layer {
	l := &Layer{model: m, grid: g, box: g.Box()}
	l.rows, l.lat = divide(l.box.North - l.box.South)
	l.cols, l.lon = divide(l.box.East - l.box.West)
	l.nodes = make([]node, l.rows*l.cols)
	for i := range l.nodes {
		at := grid.LonLat{Lon: l.box.West + float64(float64(i%l.cols)*l.lon), Lat: l.box.North - float64(float64(i/l.cols)*l.lat)}
		l.nodes[i] = m.node(at.Globe())
	}
	return l
}

// divide returns how many nodes a length in degrees takes, both ends with
// them, and how far apart they are.
func divide(length float64) (nodes int, step float64) {
	parts := int(length/nodeDegrees) + 1
	return parts + 1, length / float64(parts)
}

// At returns the offset of a cell whose typical year of air is coldest at the
// given temperature, and how far to trust it. All temperatures up to 0 °C are
// the same to it.
func (l *Layer) At(c grid.Cell, coldest units.Celsius) (soil.Offset, Trust) {
	var a Along
	l.Along(c.Row, &a)
	return a.At(c.Col, coldest)
}

// Along is a Layer along one row of cells. A goroutine has its own.
type Along struct {
	layer *Layer
	nodes []node // where the row passes between those of the layer
}

// Along makes a the layer along a row, reusing a.
func (l *Layer) Along(row int, a *Along) {
	a.layer = l
	if l.nodes == nil {
		return
	}
	a.nodes = slices.Grow(a.nodes[:0], l.cols)[:l.cols]
	first, v := split((l.box.North-l.grid.Center(grid.Cell{Row: row}).Lat)/l.lat, l.rows)
	north, south := l.nodes[first*l.cols:], l.nodes[(first+1)*l.cols:]
	for i := range a.nodes {
		a.nodes[i].between(&north[i], &south[i], v)
	}
}

// At is Layer.At for a column of the row.
func (a *Along) At(col int, coldest units.Celsius) (soil.Offset, Trust) {
	l := a.layer
	if l.nodes == nil {
		return soil.Default.Offset, Trust{}
	}
	i, u := split((l.grid.Center(grid.Cell{Col: col}).Lon-l.box.West)/l.lon, l.cols)
	var n node
	n.between(&a.nodes[i], &a.nodes[i+1], u)
	return l.model.finish(&n, coldest)
}

// split returns the node at or before a position in steps, with room for the
// next, and how far past it the position lies.
func split(at float64, nodes int) (i int, part float64) {
	i = min(max(int(at), 0), nodes-2)
	return i, at - float64(i)
}

// between makes n what lies a part of the way from one node to another.
func (n *node) between(from, to *node, part float64) {
	n.near = from.near + float64(part*(to.near-from.near))
	n.variance = from.variance + float64(part*(to.variance-from.variance))
	for k := range n.smooth {
		n.smooth[k] = from.smooth[k] + float64(part*(to.smooth[k]-from.smooth[k]))
	}
	for q := range n.pull {
		n.pull[q] = from.pull[q] + float64(part*(to.pull[q]-from.pull[q]))
	}
}

// StdErr is Model.StdErr.
func (l *Layer) StdErr(t Trust, d season.Day) units.Delta { return l.model.StdErr(t, d) }
