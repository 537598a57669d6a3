package render

import (
	"math"
	"slices"
	"sync"

	"github.com/paulmach/orb"

	"weekband/grid"
	"weekband/render/carto"
	"weekband/render/plane"
)

// view turns degrees into places on the page.
type view struct {
	projection carto.Projection
	screen     carto.Screen
}

func (v view) at(p orb.Point) plane.Pixel {
	return v.screen.Pixel(v.projection.Forward(grid.LonLat{Lon: p[0], Lat: p[1]}))
}

// lattice is what ring corners are rounded to, in parts of a pixel. Shapes
// that share an edge, drawn from either end, so keep sharing it.
const lattice = 8

// stepDeg is how far apart in degrees a long edge is bent to follow the
// projection.
const stepDeg = 1

// shape returns the path of a shape: outer rings wind one way, holes the
// other. Rings under a pixel's fraction vanish.
func (v view) shape(shape orb.MultiPolygon) *plane.Path {
	var p plane.Path
	for _, polygon := range shape {
		for i, ring := range polygon {
			points := v.snapped(ring)
			if len(points) < 3 {
				continue
			}
			if outer := i == 0; (plane.Turning(points) > 0) != outer {
				slices.Reverse(points)
			}
			p.AddRing(points...)
		}
	}
	return &p
}

// shapes returns the path of each shape, projected on all processors.
func (v view) shapes(shapes []orb.MultiPolygon) []*plane.Path {
	paths := make([]*plane.Path, len(shapes))
	var all sync.WaitGroup
	for i := range shapes {
		all.Go(func() { paths[i] = v.shape(shapes[i]) })
	}
	all.Wait()
	return paths
}

// snapped projects a closed ring onto the lattice and leaves out repeats,
// the last point included.
func (v view) snapped(ring orb.Ring) []plane.Pixel {
	out := make([]plane.Pixel, 0, min(len(ring), 4096))
	for q := range v.along(orb.LineString(ring)) {
		s := plane.Pixel{X: math.Round(q.X*lattice) / lattice, Y: math.Round(q.Y*lattice) / lattice}
		if len(out) == 0 || s != out[len(out)-1] {
			out = append(out, s)
		}
	}
	for len(out) > 1 && out[len(out)-1] == out[0] {
		out = out[:len(out)-1]
	}
	return out
}

// along yields the projected points of a line, long edges bent. Points the
// projection cannot show are left out.
func (v view) along(points orb.LineString) func(func(plane.Pixel) bool) {
	forward := carto.Forwards(v.projection, len(points))
	return func(yield func(plane.Pixel) bool) {
		for i, b := range points {
			a := b
			if i > 0 {
				a = points[i-1]
			}
			parts := math.Ceil(max(math.Abs(b[0]-a[0]), math.Abs(b[1]-a[1])) / stepDeg)
			for k := min(parts, 1); k <= parts; k++ {
				f := 1.0
				if parts > 1 {
					f = k / parts
				}
				q := v.screen.Pixel(forward(grid.LonLat{Lon: b[0] - float64((1-f)*(b[0]-a[0])), Lat: b[1] - float64((1-f)*(b[1]-a[1]))}))
				if !math.IsInf(q.X, 0) && !math.IsNaN(q.X) && !math.IsInf(q.Y, 0) && !yield(q) {
					return
				}
			}
		}
	}
}

// lines returns the path of lines for strokes: points nearer than least
// pixels to the one before are left out, ends kept.
func (v view) lines(lines []orb.LineString) *plane.Path {
	const least = 0.8
	var p plane.Path
	for _, l := range lines {
		var out []plane.Pixel
		var last plane.Pixel
		for q := range v.along(l) {
			last = q
			if len(out) == 0 || plane.Distance(q, out[len(out)-1]) >= least {
				out = append(out, q)
			}
		}
		if len(out) > 0 && last != out[len(out)-1] {
			out = append(out, last)
		}
		p.Add(out...)
	}
	return &p
}
