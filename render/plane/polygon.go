package plane

import "math"

// SinCos returns sine and cosine of an angle in radians, to 2⁻⁴⁰. Their last bits are not the same on
// every machine, and lines at round angles run through corners of what they
// fill.
func SinCos(angle float64) (sin, cos float64) {
	const steps = 1 << 40
	sin, cos = math.Sincos(angle)
	return float64(math.RoundToEven(sin*steps) / steps), float64(math.RoundToEven(cos*steps) / steps)
}

// Polygon returns the corners of a regular polygon of n corners on a circle
// around c, clockwise from the right; many are as good as a circle.
func Polygon(c Pixel, radius float64, n int) []Pixel {
	ring := make([]Pixel, n)
	for i := range ring {
		sin, cos := SinCos(2 * math.Pi * float64(i) / float64(n))
		ring[i] = Pixel{X: c.X + float64(radius*cos), Y: c.Y + float64(radius*sin)}
	}
	return ring
}

// Distance returns the distance of two places in pixels. It is math.Hypot for places on a
// page, the same on every machine.
func Distance(a, b Pixel) float64 {
	dx, dy := a.X-b.X, a.Y-b.Y
	return math.Sqrt(float64(dx*dx) + float64(dy*dy))
}

// Turning is twice the signed area of a ring of at least one point in square
// pixels, positive when it runs clockwise on the page.
func Turning(ring []Pixel) float64 {
	sum := 0.0
	a := ring[len(ring)-1]
	for _, b := range ring {
		sum += float64(a.X*b.Y) - float64(b.X*a.Y)
		a = b
	}
	return sum
}
