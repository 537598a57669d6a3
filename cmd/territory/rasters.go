package main

import (
	"io"
	"time"

	"weekband/grid"
	"weekband/grid/source/geotiff"
)

// elevation returns the mean height in whole metres of the land in every cell
// whose middle lies in a region.
func elevation(l *land, shapes []shape) *grid.Raster[float32] {
	r := grid.NewRaster[float32](mesh(1))
	for row := range cellRows {
		for col := range cellCols {
			c := grid.Cell{Row: row, Col: col}
			if whose(shapes, r.Grid().Center(c)) != sea {
				r.Set(c, float32(round(l.meanHeight(c), 0)))
			}
		}
	}
	return r
}

// meanHeight is the mean height of the land in a cell, at least 1 m.
func (l *land) meanHeight(c grid.Cell) float64 {
	sum, n := 1.0, 1.0
	for r := range fineness {
		for k := range fineness {
			i := (c.Row*fineness+r)*cellCols*fineness + c.Col*fineness + k
			if !l.isSea(i) {
				sum += l.height.v[i]
				n++
			}
		}
	}
	return sum / n
}

// normals returns the twelve monthly means, °C rounded to 0.01, of the cells
// that have a height.
func normals(c climate, height *grid.Raster[float32]) []*grid.Raster[float32] {
	months := make([]*grid.Raster[float32], 12)
	for m := range months {
		months[m] = grid.NewRaster[float32](height.Grid())
	}
	for cell, h := range height.All() {
		t := c.site(height.Grid().Center(cell), float64(h)).months()
		for m := range months {
			months[m].Set(cell, float32(round(t[m], 2)))
		}
	}
	return months
}

// writeLayers writes rasters on the same grid as the layers of one GeoTIFF of
// 16-bit integers.
func writeLayers(w io.Writer, layers []*grid.Raster[float32], opts geotiff.WriteOptions) error {
	g := layers[0].Grid()
	opts.Store = geotiff.Int16
	return geotiff.Encode(w, g, len(layers), func(layer, first, n int, vals []float32, has []bool) error {
		for row := range n {
			v, h := layers[layer].Row(first + row)
			copy(vals[row*g.Cols():], v)
			copy(has[row*g.Cols():], h)
		}
		return nil
	}, opts)
}

func monthNames() []string {
	var names []string
	for m := time.January; m <= time.December; m++ {
		names = append(names, m.String())
	}
	return names
}
