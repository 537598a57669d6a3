package grid

// Pooled returns the grid whose cells are blocks of n × n cells of g, the last
// of which may reach past the eastern and southern edges of g. ok is false when
// they would reach past the pole or the antimeridian. It panics when n is not
// positive.
func (g Grid) Pooled(n int) (pooled Grid, ok bool) {
	if n < 1 {
		panic("grid: blocks of no cells")
	}
	rows, cols := (g.rows+n-1)/n, (g.cols+n-1)/n
	box := g.box
	if rows*n != g.rows {
		box.South = box.North - float64(float64(rows*n)*g.StepLat())
	}
	if cols*n != g.cols {
		box.East = box.West + float64(float64(cols*n)*g.StepLon())
	}
	pooled, err := New(box, rows, cols)
	return pooled, err == nil
}

// Pool returns, on a grid that Pooled made of n × n cells, the mean of those of
// every block that have a value; a block has one when any of its cells has. row
// gives a row of the finer grid, which may be used until the next is asked for;
// rows are asked for in order.
func Pool(pooled Grid, n, rows int, row func(row int) (vals []float32, has []bool)) *Raster[float32] {
	out := NewRaster[float32](pooled)
	sums, counts := make([]float64, pooled.cols), make([]int, pooled.cols)
	for r := range rows {
		vals, has := row(r)
		for c, ok := range has {
			if ok {
				sums[c/n] += float64(vals[c])
				counts[c/n]++
			}
		}
		if (r+1)%n != 0 && r+1 != rows {
			continue
		}
		means, there := out.Row(r / n)
		for c, count := range counts {
			if count > 0 {
				means[c], there[c] = float32(sums[c]/float64(count)), true
			}
		}
		clear(sums)
		clear(counts)
	}
	return out
}
