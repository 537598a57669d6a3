//go:build unix

package sidebyside

import (
	"sync"

	"weekband/grid"
	"weekband/grid/calibration"
	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/soil"
	"weekband/grid/status"
	"weekband/grid/units"
	"weekband/grid/weeks"
)

// crossingsAlone works out the crossing days of all cells and nothing else, as
// the numpy script does.
func crossingsAlone(e *expanse, window status.Window, opts weeks.Options) *grid.Raster[float32] {
	out := grid.NewRaster[float32](e.normals.grid)
	var wait sync.WaitGroup
	for k := range threads {
		wait.Go(func() {
			p := plain{trigger: window.Trigger, response: opts.Soil.Response(), offset: opts.Soil.Offset, offsets: opts.Offsets}
			for row := k; row < out.Grid().Rows(); row += threads {
				p.row(e.normals, row, out)
			}
		})
	}
	wait.Wait()
	return out
}

// plain works out crossing days and nothing else.
type plain struct {
	trigger  crossing.Trigger
	response *soil.Response
	offset   soil.Offset
	offsets  *calibration.Layer
	along    calibration.Along

	means  [12]units.Celsius
	air    curve.Curve
	sketch curve.Sketch
	course soil.Course
	days   curve.Year
}

func (p *plain) row(n *memory, row int, out *grid.Raster[float32]) {
	if p.offsets != nil {
		p.offsets.Along(row, &p.along)
	}
	vals, has := out.Row(row)
	for col := range vals {
		i := row*len(vals) + col
		if !n.rows.Has[i] {
			continue
		}
		for m := range p.means {
			p.means[m] = units.Celsius(n.rows.Vals[m][i])
		}
		if c := p.crossing(col); c.Reason.HasDay() {
			vals[col], has[col] = float32(c.Day), true
		}
	}
}

func (p *plain) crossing(col int) crossing.Crossing {
	p.air.Fit(&p.means)
	p.air.Sketch(&p.sketch)
	if p.offsets != nil {
		var coldest units.Celsius // up to 0 °C it is all the same
		if p.sketch.Under(0) == 0 {
			coldest = units.Celsius(p.sketch.Lowest())
		}
		p.offset, _ = p.along.At(col, coldest)
	}
	p.response.Course(&p.air, &p.sketch, &p.offset, &p.course)
	if !p.response.Same(&p.offset) {
		p.course.Sketch(&p.sketch)
	}
	c, ok := crossing.Seek(&p.course, &p.sketch, p.trigger)
	if !ok {
		p.course.Sample(&p.days)
		c = crossing.Find(&p.days, p.trigger)
	}
	return c
}
