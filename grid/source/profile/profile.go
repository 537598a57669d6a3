package profile

import (
	"fmt"
	"math"

	"weekband/grid"
	"weekband/grid/source"
)

// Layer is what one layer holds, in the file's own numbers. Min, Mean and Max
// are 0 when no cell has a value; the mean weighs cells by their area.
type Layer struct {
	Name    string  `json:"name,omitempty"`
	Month   int     `json:"month,omitempty"` // 1 to 12 where the file tells
	Missing float64 `json:"missing"`         // share of the cells without a value
	Min     float64 `json:"min"`
	Mean    float64 `json:"mean"`
	Max     float64 `json:"max"`

	valued, zeros int
	low, high     extreme // of the values; high is of those turned round
	north, south  float64 // means of the two halves; of the hemispheres where there are two
}

// extreme is the least value, how many cells have it, and the next least one.
type extreme struct {
	at, next float64
	cells    int
}

func (e *extreme) add(v float64) {
	switch {
	case e.cells == 0:
		*e = extreme{at: v, next: math.Inf(1), cells: 1}
	case v == e.at:
		e.cells++
	case v < e.at:
		*e = extreme{at: v, next: e.at, cells: 1}
	default:
		e.next = min(e.next, v)
	}
}

// Profile is what a data set holds.
type Profile struct {
	source.Description
	Grid       grid.Grid
	Layers     []Layer
	Suspicions []string
}

// CellKm returns the width and the height of a cell of the middle row in km.
func (p Profile) CellKm() (wide, high float64) {
	high = p.Grid.StepLat() * grid.KmPerDegree
	return p.Grid.CellArea(p.Grid.Rows()/2) / high, high
}

// blockRows is how many rows are read at a time.
const blockRows = 64

// Of reads a data set once, layer by layer. It returns the errors of reading.
func Of(l source.Layers) (Profile, error) {
	p := Profile{Description: l.Describe(), Grid: l.Grid()}
	for i := range l.Count() {
		layer, err := read(l, i)
		if err != nil {
			return p, err
		}
		if i < len(p.Names) {
			layer.Name = p.Names[i]
		}
		if i < len(p.Months) {
			layer.Month = p.Months[i]
		}
		p.Layers = append(p.Layers, layer)
	}
	p.suspect()
	return p, nil
}

// Merge puts the profiles of twelve files of one layer together, in the order
// given.
func Merge(parts []Profile) Profile {
	p := parts[0]
	p.Layers, p.Suspicions = nil, nil
	for _, part := range parts {
		for _, l := range part.Layers {
			if l.Name == "" {
				l.Name = part.Name
			}
			p.Layers = append(p.Layers, l)
		}
	}
	p.suspect()
	return p
}

// sums adds up one layer.
type sums struct {
	weight, value [2]float64 // northern and southern half
}

func read(l source.Layers, index int) (Layer, error) {
	g := l.Grid()
	var out Layer
	middle := g.Box().Center().Lat
	if g.Box().South < 0 && g.Box().North > 0 {
		middle = 0
	}
	vals, has := make([]float32, blockRows*g.Cols()), make([]bool, blockRows*g.Cols())
	var s sums
	for first := 0; first < g.Rows(); first += blockRows {
		rows := min(blockRows, g.Rows()-first)
		n := rows * g.Cols()
		if err := l.Read(index, first, rows, vals[:n], has[:n]); err != nil {
			return out, err
		}
		for row := range rows {
			half := 0
			if g.Center(grid.Cell{Row: first + row}).Lat < middle {
				half = 1
			}
			area := g.CellArea(first + row)
			for i := row * g.Cols(); i < (row+1)*g.Cols(); i++ {
				if has[i] {
					out.add(float64(vals[i]))
					s.weight[half] += area
					s.value[half] += float64(area * float64(vals[i]))
				}
			}
		}
	}
	out.Missing = 1 - float64(out.valued)/float64(g.Cells())
	if out.valued == 0 {
		return out, nil
	}
	out.Min, out.Max = out.low.at, -out.high.at
	out.Mean = (s.value[0] + s.value[1]) / (s.weight[0] + s.weight[1])
	out.north, out.south = out.Mean, out.Mean
	if s.weight[0] > 0 && s.weight[1] > 0 {
		out.north, out.south = s.value[0]/s.weight[0], s.value[1]/s.weight[1]
	}
	return out, nil
}

func (l *Layer) add(v float64) {
	l.valued++
	l.low.add(v)
	l.high.add(-v)
	if v == 0 {
		l.zeros++
	}
}

// name says which layer is meant.
func (p *Profile) name(i int) string {
	if n := p.Layers[i].Name; n != "" {
		return fmt.Sprintf("layer %d (%s)", i+1, n)
	}
	return fmt.Sprintf("layer %d", i+1)
}
