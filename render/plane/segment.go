package plane

// CrossesBox reports whether the straight line from a to b touches a box.
func CrossesBox(a, b Pixel, box Rect) bool {
	if box.Contains(a) || box.Contains(b) {
		return true
	}
	nw, se := Pixel{X: box.Left, Y: box.Top}, Pixel{X: box.Right, Y: box.Bottom}
	ne, sw := Pixel{X: box.Right, Y: box.Top}, Pixel{X: box.Left, Y: box.Bottom}
	return Cross(a, b, nw, se) || Cross(a, b, ne, sw)
}

// Cross reports whether the straight lines from a to b and from c to d cross.
func Cross(a, b, c, d Pixel) bool {
	side := func(p, q, r Pixel) bool { return float64((q.X-p.X)*(r.Y-p.Y))-float64((q.Y-p.Y)*(r.X-p.X)) > 0 }
	return side(a, b, c) != side(a, b, d) && side(c, d, a) != side(c, d, b)
}
