package chart

import (
	"cmp"
	"math"
	"slices"

	"weekband/grid"
	"weekband/grid/weeks"
)

// sampled is how many cells a chart shows, about, of maps that have more.
const sampled = 800

// golden is the fractional part of the golden ratio: its multiples spread
// evenly over [0, 1), and unlike every so-many-th cell do not follow columns.
const golden = 0.6180339887498949

// placed is a cell with a crossing day.
type placed struct {
	at  float64 // elevation in m, or latitude in degrees
	day float64 // unwrapped
}

// sample returns about so many cells that have a crossing day and a place, in
// the order of their places; the same ones every time.
func sample(f *weeks.Field, place func(grid.Cell) (float64, bool)) []placed {
	share := sampled / float64(max(f.Day.Count(), 1))
	var out []placed
	i := 0
	for row := range f.Grid().Rows() {
		days, has := f.Day.Row(row)
		for col, ok := range has {
			if !ok {
				continue
			}
			i++
			if turns := float64(float64(i) * golden); turns-math.Floor(turns) >= share {
				continue
			}
			if at, ok := place(grid.Cell{Row: row, Col: col}); ok {
				out = append(out, placed{at: at, day: float64(days[col])})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b placed) int { return cmp.Compare(a.at, b.at) })
	return out
}

// heightOf returns the mean elevation of the cells of a terrain whose middle
// lies in a box, or that of the cell its middle lies in when there are none.
func heightOf(terrain *grid.Raster[float32], box grid.Box) (float64, bool) {
	g := terrain.Grid()
	sum, n := 0.0, 0
	top, left := g.Position(grid.LonLat{Lon: box.West, Lat: box.North})
	bottom, right := g.Position(grid.LonLat{Lon: box.East, Lat: box.South})
	for row := max(int(math.Ceil(top-0.5)), 0); row < g.Rows() && float64(row)+0.5 < bottom; row++ {
		for col := max(int(math.Ceil(left-0.5)), 0); col < g.Cols() && float64(col)+0.5 < right; col++ {
			if v, ok := terrain.At(grid.Cell{Row: row, Col: col}); ok {
				sum += float64(v)
				n++
			}
		}
	}
	if n > 0 {
		return sum / float64(n), true
	}
	cell, ok := g.Locate(box.Center())
	if !ok {
		return 0, false
	}
	v, ok := terrain.At(cell)
	return float64(v), ok
}

// stratum is the cells of one class of places.
type stratum struct {
	from, to          float64 // the class, half-open
	middle            float64 // mean place of its cells
	low, median, high float64 // 10, 50 and 90 % of their days
	count             int
}

// Classes of places: about so many, each with enough cells to have a middle.
const (
	mostStrata = 14
	fewestIn   = 8
)

// classify groups cells, sorted by place, into classes of the narrowest width
// that makes no more than mostStrata; classes of fewer than fewestIn cells are
// left out.
func classify(cells []placed, widths []float64) []stratum {
	if len(cells) == 0 {
		return nil
	}
	width := widths[len(widths)-1]
	for _, w := range widths {
		if (cells[len(cells)-1].at-cells[0].at)/w <= mostStrata {
			width = w
			break
		}
	}
	var out []stratum
	for begin := 0; begin < len(cells); {
		k := math.Floor(cells[begin].at / width)
		end := begin
		for end < len(cells) && cells[end].at < (k+1)*width {
			end++
		}
		if end-begin >= fewestIn {
			out = append(out, stratumOf(cells[begin:end], k*width, (k+1)*width))
		}
		begin = max(end, begin+1)
	}
	return out
}

func stratumOf(cells []placed, from, to float64) stratum {
	days := make([]float64, len(cells))
	s := stratum{from: from, to: to, count: len(cells)}
	for i, c := range cells {
		days[i] = c.day
		s.middle += c.at / float64(len(cells))
	}
	slices.Sort(days)
	s.low, s.median, s.high = quantile(days, 0.1), quantile(days, 0.5), quantile(days, 0.9)
	return s
}

// quantile returns the share of sorted values, straight between them (the
// seventh of the nine of Hyndman and Fan 1996, Am. Stat. 50:361).
func quantile(sorted []float64, share float64) float64 {
	at := float64(share * float64(len(sorted)-1))
	i := int(at)
	return sorted[i] + float64((at-float64(i))*(sorted[min(i+1, len(sorted)-1)]-sorted[i]))
}
