package grid

import "math"

// EarthKm is the mean radius of the Earth, IUGG R1.
const EarthKm = 6371.0088

// KmPerDegree is the length of a degree of a great circle.
const KmPerDegree = EarthKm * math.Pi / 180

// Globe is a place on the sphere of the Earth's mean radius, in km from its
// centre.
type Globe [3]float64

// Globe returns where a position lies on the sphere.
func (p LonLat) Globe() Globe {
	φ, λ := p.Lat*math.Pi/180, p.Lon*math.Pi/180
	return Globe{EarthKm * math.Cos(φ) * math.Cos(λ), EarthKm * math.Cos(φ) * math.Sin(λ), EarthKm * math.Sin(φ)}
}

// Distance returns the length of the chord between two places in km: at
// 500 km a chord is 0.13 km shorter than the arc.
func (g *Globe) Distance(h *Globe) float64 {
	x, y, z := g[0]-h[0], g[1]-h[1], g[2]-h[2]
	return math.Sqrt(float64(x*x) + float64(y*y) + float64(z*z))
}
