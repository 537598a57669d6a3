package plane

import "weekband/render/carto"

// CrossesBox reports whether the line ab touches a box.
func CrossesBox(a, b carto.Pixel, box Rect) bool {
	if box.Contains(a) || box.Contains(b) {
		return true
	}
	nw, se := carto.Pixel{X: box.Left, Y: box.Top}, carto.Pixel{X: box.Right, Y: box.Bottom}
	ne, sw := carto.Pixel{X: box.Right, Y: box.Top}, carto.Pixel{X: box.Left, Y: box.Bottom}
	return Cross(a, b, nw, se) || Cross(a, b, ne, sw)
}

// Cross reports whether the lines ab and cd cross.
func Cross(a, b, c, d carto.Pixel) bool {
	side := func(p, q, r carto.Pixel) bool { return float64((q.X-p.X)*(r.Y-p.Y))-float64((q.Y-p.Y)*(r.X-p.X)) > 0 }
	return side(a, b, c) != side(a, b, d) && side(c, d, a) != side(c, d, b)
}
