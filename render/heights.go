package render

import (
	"math"

	"weekband/grid"
	"weekband/render/plane"
)

// heights are elevations in m at places evenly apart on the page, row by row
// from the top left of a frame, smoothed to what the places can show.
type heights struct {
	cols, rows int
	apart      float64   // ground between two places, m
	z          []float32 // m, 0 where weight is 0
	weight     []float32 // which part of the ground around has an elevation, 0 to 1
}

// How far apart heights lie: never nearer than apartLeast layout pixels, nor
// farther than apartMost; in between, perCell cells of the terrain.
const (
	apartLeast = 0.5
	apartMost  = 6
	perCell    = 0.6
)

// metresPerDegree is the length of a degree of latitude on the sphere of
// radius 6,371 km; it only sets how much to smooth.
const metresPerDegree = 6_371_000 * math.Pi / 180

// newHeights reads a terrain at the places of a frame. Where the terrain has
// finer cells than the page shows, a place gets their mean, else what lies
// between the four around it; then all are smoothed.
func newHeights(v view, frame plane.Rect, terrain *grid.Raster[float32]) heights {
	perMetre := v.screen.PixelsPerMetre()
	g := terrain.Grid()
	cell := g.StepLat() * metresPerDegree * perMetre // layout pixels
	apart := min(max(apartLeast, perCell*cell), apartMost)
	h := heights{
		cols: max(2, int(math.Round(frame.Width()/apart))), rows: max(2, int(math.Round(frame.Height()/apart))),
		apart: apart / perMetre,
	}
	h.z, h.weight = make([]float32, h.cols*h.rows), make([]float32, h.cols*h.rows)
	middle, _ := v.projection.Inverse(v.screen.Point(frame.Center()))
	terrain = pooled(terrain, h.apart, middle.Lat)
	h.read(v, frame, terrain)
	for range max(1, int(math.Round(math.Pow(perCell*cell/apart, 2)))) {
		h.smooth()
	}
	for i, w := range h.weight {
		if w > 0 {
			h.z[i] /= w
		}
	}
	return h
}

// pooled returns the terrain in cells of at least about size m at a latitude,
// each the mean of those it takes in; the terrain itself when its cells are
// that large.
func pooled(terrain *grid.Raster[float32], size, lat float64) *grid.Raster[float32] {
	g := terrain.Grid()
	high := int(size / (g.StepLat() * metresPerDegree))
	wide := int(size / (g.StepLon() * metresPerDegree * max(0.05, math.Cos(lat*math.Pi/180))))
	high, wide = min(max(high, 1), g.Rows()), min(max(wide, 1), g.Cols())
	if high == 1 && wide == 1 {
		return terrain
	}
	box := g.Box()
	rows, cols := (g.Rows()+high-1)/high, (g.Cols()+wide-1)/wide
	box.South = box.North - float64(float64(rows*high)*g.StepLat())
	box.East = box.West + float64(float64(cols*wide)*g.StepLon())
	onto, err := grid.New(box, rows, cols)
	if err != nil { // a world grid whose last cells would reach past its edge
		return terrain
	}
	out := grid.NewRaster[float32](onto)
	eachRow(rows, func(row int) {
		vals, has := out.Row(row)
		counts := make([]float32, cols)
		for r := row * high; r < min((row+1)*high, g.Rows()); r++ {
			from, there := terrain.Row(r)
			for c, ok := range there {
				if ok {
					vals[c/wide] += from[c]
					counts[c/wide]++
				}
			}
		}
		for c, n := range counts {
			if n > 0 {
				vals[c], has[c] = vals[c]/n, true
			}
		}
	})
	return out
}

// patch is how many places share the corners between which positions are
// interpolated.
const patch = 8

// read fills the heights, weighted with what part of the surroundings has
// one.
func (h *heights) read(v view, frame plane.Rect, terrain *grid.Raster[float32]) {
	position := func(col, row int) (grid.LonLat, bool) {
		return v.projection.Inverse(v.screen.Point(at(frame, *h, col, row)))
	}
	eachRow((h.rows+patch-1)/patch, func(band int) {
		for col := 0; col < h.cols; col += patch {
			inPatch := between(position, col, band*patch)
			for row := band * patch; row < min((band+1)*patch, h.rows); row++ {
				for c := col; c < min(col+patch, h.cols); c++ {
					if p, ok := inPatch(c, row); ok {
						i := row*h.cols + c
						h.z[i], h.weight[i] = bilinear(terrain, p)
					}
				}
			}
		}
	})
}

// at returns where a place stands on the page.
func at(frame plane.Rect, h heights, col, row int) plane.Pixel {
	return plane.Pixel{
		X: frame.Left + frame.Width()*(float64(col)+0.5)/float64(h.cols),
		Y: frame.Top + frame.Height()*(float64(row)+0.5)/float64(h.rows),
	}
}

// between returns where the places of a patch lie: between its corners, or,
// where the map bends too much for that, each asked for by itself.
func between(at func(col, row int) (grid.LonLat, bool), col, row int) func(col, row int) (grid.LonLat, bool) {
	const mostDeg = 3
	nw, ok1 := at(col, row)
	ne, ok2 := at(col+patch, row)
	sw, ok3 := at(col, row+patch)
	se, ok4 := at(col+patch, row+patch)
	west, east := min(nw.Lon, ne.Lon, sw.Lon, se.Lon), max(nw.Lon, ne.Lon, sw.Lon, se.Lon)
	if !(ok1 && ok2 && ok3 && ok4) || east-west > mostDeg {
		return at
	}
	return func(c, r int) (grid.LonLat, bool) {
		x, y := float64(c-col)/patch, float64(r-row)/patch
		mix := func(a, b, c, d float64) float64 {
			return float64((float64(a*(1-x))+float64(b*x))*(1-y)) + float64((float64(c*(1-x))+float64(d*x))*y)
		}
		return grid.LonLat{Lon: mix(nw.Lon, ne.Lon, sw.Lon, se.Lon), Lat: mix(nw.Lat, ne.Lat, sw.Lat, se.Lat)}, true
	}
}

// bilinear returns the weighted sum of the four cells around a position that
// have a value, and the sum of their weights.
func bilinear(r *grid.Raster[float32], p grid.LonLat) (sum, weight float32) {
	g := r.Grid()
	row, col := g.Position(p)
	row, col = row-0.5, col-0.5
	if !(row > -1 && col > -1 && row < float64(g.Rows()) && col < float64(g.Cols())) {
		return 0, 0
	}
	r0, c0 := int(math.Floor(row)), int(math.Floor(col))
	fr, fc := float32(row-float64(r0)), float32(col-float64(c0))
	for k, wr := range [2]float32{1 - fr, fr} {
		if r0+k < 0 || r0+k >= g.Rows() {
			continue
		}
		vals, has := r.Row(r0 + k)
		for l, wc := range [2]float32{1 - fc, fc} {
			if c := c0 + l; c >= 0 && c < g.Cols() && has[c] {
				sum += float32(wr * wc * vals[c])
				weight += float32(wr * wc)
			}
		}
	}
	return sum, weight
}

// smooth spreads every height over its neighbours by the binomial weights
// 1 4 6 4 1 along both axes, which have a standard deviation of one place.
func (h *heights) smooth() {
	for _, field := range [...][]float32{h.z, h.weight} {
		half := make([]float32, len(field))
		eachRow(h.rows, func(row int) {
			from, to := field[row*h.cols:][:h.cols], half[row*h.cols:][:h.cols]
			last := h.cols - 1
			for c := range to {
				to[c] = (from[max(c-2, 0)] + from[min(c+2, last)] + float32(4*(from[max(c-1, 0)]+from[min(c+1, last)])) + float32(6*from[c])) / 16
			}
		})
		line := func(row int) []float32 { return half[min(max(row, 0), h.rows-1)*h.cols:][:h.cols] }
		eachRow(h.rows, func(row int) {
			a, b, c, d, e := line(row-2), line(row-1), line(row), line(row+1), line(row+2)
			to := field[row*h.cols:][:h.cols]
			for i := range to {
				to[i] = (a[i] + e[i] + float32(4*(b[i]+d[i])) + float32(6*c[i])) / 16
			}
		})
	}
}
