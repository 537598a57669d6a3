package render

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/clip"

	"weekband/grid"
	"weekband/render/canvas"
	"weekband/render/plane"
	"weekband/render/wording"
)

// graticule holds meridians and parallels within a frame and their labels
// along its left and lower edges.
type graticule struct {
	lines  *plane.Path
	labels []canvas.Text
}

// steps are the distances of lines in degrees that read well.
var steps = [...]float64{30, 20, 10, 5, 2, 1, 0.5, 0.25, 0.1, 0.05, 0.02, 0.01}

// stepFor returns the distance of lines so that about four cross a stretch of
// degrees.
func stepFor(degrees float64) float64 {
	for _, s := range steps {
		if degrees/s >= 3 {
			return s
		}
	}
	return steps[len(steps)-1]
}

// newGraticule draws the lines that cross the frame. What the frame shows is
// found by asking the projection back along its edges.
func newGraticule(v view, frame plane.Rect, font canvas.Font, lang *wording.Language) graticule {
	box := shown(v, frame)
	g := graticule{lines: &plane.Path{}}
	inset := float64(font.Size * 0.45)
	step := stepFor(box.North - box.South)
	for lat := math.Ceil(box.South/step) * step; lat <= box.North; lat += step {
		line := v.curve(grid.LonLat{Lon: box.West, Lat: lat}, grid.LonLat{Lon: box.East, Lat: lat}, frame)
		g.add(line)
		if at, ok := meets(line, func(p plane.Pixel) bool { return p.X <= frame.Left+0.5 }); ok {
			g.label(canvas.Text{At: plane.Pixel{X: at.X + inset, Y: at.Y - float64(inset*0.6)}, String: lang.Map.Latitude(lat), Font: font, Color: canvas.LesserInk}, frame)
		}
	}
	step = stepFor((box.East - box.West) * 0.8)
	for lon := math.Ceil(box.West/step) * step; lon <= box.East; lon += step {
		line := v.curve(grid.LonLat{Lon: lon, Lat: box.South}, grid.LonLat{Lon: lon, Lat: box.North}, frame)
		g.add(line)
		if at, ok := meets(line, func(p plane.Pixel) bool { return p.Y >= frame.Bottom-0.5 }); ok {
			g.label(canvas.Text{At: plane.Pixel{X: at.X + inset, Y: at.Y - inset}, String: lang.Map.Longitude(lon), Font: font, Color: canvas.LesserInk}, frame)
		}
	}
	return g
}

func (g *graticule) add(pieces [][]plane.Pixel) {
	for _, p := range pieces {
		g.lines.Add(p...)
	}
}

// label keeps a label that lies in the frame and on no other.
func (g *graticule) label(t canvas.Text, frame plane.Rect) {
	b := t.Bounds()
	if !b.Within(frame) {
		return
	}
	for _, o := range g.labels {
		if o.Bounds().Grow(2).Overlaps(b) {
			return
		}
	}
	g.labels = append(g.labels, t)
}

// meets returns the first end of a line's pieces at an edge.
func meets(pieces [][]plane.Pixel, edge func(plane.Pixel) bool) (plane.Pixel, bool) {
	for _, p := range pieces {
		for _, end := range [...]plane.Pixel{p[0], p[len(p)-1]} {
			if edge(end) {
				return end, true
			}
		}
	}
	return plane.Pixel{}, false
}

// curve returns the line of constant step between two positions where it lies
// in the frame, in one or more pieces.
func (v view) curve(from, to grid.LonLat, frame plane.Rect) [][]plane.Pixel {
	const parts = 120
	line := make(orb.LineString, 0, parts+1)
	for i := range parts + 1 {
		f := float64(i) / parts
		q := v.at(orb.Point{from.Lon + float64(f*(to.Lon-from.Lon)), from.Lat + float64(f*(to.Lat-from.Lat))})
		if !math.IsInf(q.X, 0) && !math.IsNaN(q.X) {
			line = append(line, orb.Point{q.X, q.Y})
		}
	}
	bound := orb.Bound{Min: orb.Point{frame.Left, frame.Top}, Max: orb.Point{frame.Right, frame.Bottom}}
	var pieces [][]plane.Pixel
	for _, l := range clip.LineString(bound, line) {
		if len(l) < 2 {
			continue
		}
		piece := make([]plane.Pixel, len(l))
		for i, p := range l {
			piece[i] = plane.Pixel{X: p[0], Y: p[1]}
		}
		pieces = append(pieces, piece)
	}
	return pieces
}

// shown returns a box around what the frame shows.
func shown(v view, frame plane.Rect) grid.Box {
	const parts = 24
	box := grid.Box{West: 180, East: -180, South: 90, North: -90}
	for i := range parts + 1 {
		for j := range parts + 1 {
			p, ok := v.projection.Inverse(v.screen.Point(plane.Pixel{
				X: frame.Left + frame.Width()*float64(i)/parts, Y: frame.Top + frame.Height()*float64(j)/parts,
			}))
			if ok {
				box.West, box.East = min(box.West, p.Lon), max(box.East, p.Lon)
				box.South, box.North = min(box.South, p.Lat), max(box.North, p.Lat)
			}
		}
	}
	return box
}
