package render

import (
	"math"

	"github.com/paulmach/orb"

	"weekband/grid"
	"weekband/render/carto"
	"weekband/render/plane"
)

// Near is a region and what lies around it, on a map NearWidth by NearHeight
// pixels large with north up. Paths reach a little over its edges.
type Near struct {
	Regions []NearRegion // the region itself last, so that its outline is on top
	Labels  []NearLabel  // the region's own first
}

// NearRegion is the ground of one region.
type NearRegion struct {
	Region int    // index
	Path   string // path data
}

// Size of near views in pixels.
const (
	NearWidth  = 360
	NearHeight = 270
)

const (
	nearMargin = 0.35 // of the region's extent, on every side
	nearBeyond = 6    // px, how far paths reach over the edges
	nearSlack  = 5    // tenths of a pixel
	nearLeast  = 4000 // m, the least height of what is shown
)

// Near returns the near view of region i: the largest of its parts, which hold
// most of its ground, with a margin of a third of their extent, and all ground
// of other regions in the frame. Shapes are thinned to half a pixel, common
// borders once for both. A region without ground gives an empty view.
func (l *Locators) Near(i int) Near {
	main := l.main(i)
	if len(main) == 0 {
		return Near{}
	}
	frame := plane.Rect{Right: NearWidth, Bottom: NearHeight}
	v := nearView(main, frame)
	which, shapes := l.around(v.boxOf(frame.Grow(nearBeyond)))
	paths := make([]*plane.Path, len(shapes))
	for k := range shapes {
		paths[k] = v.shape(shapes[k]).CutTo(frame.Grow(nearBeyond))
	}
	paths = plane.NewMesh(paths, nearSlack).Paths()
	var n Near
	var self NearRegion
	var outlines []*plane.Path
	var seen []int
	for k, region := range which {
		if paths[k].Empty() {
			continue
		}
		r := NearRegion{Region: region, Path: paths[k].SVG()}
		if region == i {
			self = r
		} else {
			n.Regions = append(n.Regions, r)
		}
		outlines, seen = append(outlines, paths[k]), append(seen, region)
	}
	n.Regions = append(n.Regions, self)
	n.Labels = l.label(i, seen, outlines, frame)
	return n
}

// nearView returns the view that shows a shape with a margin. Its projection
// is the one that suits what it shows, so that north is up everywhere.
func nearView(shape orb.MultiPolygon, frame plane.Rect) view {
	box := turned(shape)
	c := box.Center()
	wide := (box.Max[0] - box.Min[0]) * (1 + 2*nearMargin) / 2
	high := max((box.Max[1]-box.Min[1])*(1+2*nearMargin)/2, nearLeast/2/metresPerDegree)
	wide = min(max(wide, high), 179)
	v := view{projection: carto.Choose(grid.Box{
		West: c[0] - wide, East: c[0] + wide, South: max(-90, c[1]-high), North: min(90, c[1]+high),
	})}
	b := carto.NoBounds
	for _, polygon := range shape {
		for _, p := range polygon[0] {
			b = b.With(v.projection.Forward(position(p)))
		}
	}
	x, y := max(nearMargin*b.Width(), nearLeast/2), max(nearMargin*b.Height(), nearLeast/2)
	b = b.With(carto.Point{X: b.Min.X - x, Y: b.Min.Y - y}).With(carto.Point{X: b.Max.X + x, Y: b.Max.Y + y})
	v.screen = carto.Fit(b, frame.TopLeft(), plane.Pixel{X: frame.Right, Y: frame.Bottom})
	return v
}

// turned returns the bounds of a shape, parts whole turns nearer to the first.
func turned(shape orb.MultiPolygon) orb.Bound {
	out := shape[0].Bound()
	home := out.Center()[0]
	for _, polygon := range shape[1:] {
		b := polygon.Bound()
		turn := float64(360 * math.Round((home-b.Center()[0])/360))
		b.Min[0], b.Max[0] = b.Min[0]+turn, b.Max[0]+turn
		out = out.Union(b)
	}
	return out
}

// boxOf returns a box of degrees around all that a frame shows; its longitudes
// may reach past 180°.
func (v view) boxOf(frame plane.Rect) orb.Bound {
	const parts = 6
	middle, _ := v.position(frame.Center())
	out := orb.Bound{Min: orb.Point{middle.Lon, middle.Lat}, Max: orb.Point{middle.Lon, middle.Lat}}
	for i := range parts + 1 {
		for k := range parts + 1 {
			p, ok := v.position(plane.Pixel{X: frame.Left + frame.Width()*float64(i)/parts, Y: frame.Top + frame.Height()*float64(k)/parts})
			if ok {
				out = out.Extend(orb.Point{middle.Lon + math.Remainder(p.Lon-middle.Lon, 360), p.Lat})
			}
		}
	}
	if v.showsPole(frame) {
		out.Min[0], out.Max[0] = middle.Lon-180, middle.Lon+180
		out.Min[1] = min(out.Min[1], math.Copysign(90, middle.Lat))
		out.Max[1] = max(out.Max[1], math.Copysign(90, middle.Lat))
	}
	const bulge = 0.03 // of the box, for edges that bend between the places looked at
	return orb.Bound{
		Min: orb.Point{out.Min[0] - float64(bulge*(out.Max[0]-out.Min[0])), out.Min[1] - float64(bulge*(out.Max[1]-out.Min[1]))},
		Max: orb.Point{out.Max[0] + float64(bulge*(out.Max[0]-out.Min[0])), out.Max[1] + float64(bulge*(out.Max[1]-out.Min[1]))},
	}
}
