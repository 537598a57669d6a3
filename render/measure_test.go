package render_test

import (
	"math"

	"github.com/paulmach/orb"

	"weekband/grid"
	"weekband/render"
)

// regionKm2 is the area of a shape: strips between its edges and the equator
// on the ellipsoid, by grid.Box.Area.
func regionKm2(shape orb.MultiPolygon) float64 {
	sum := 0.0
	for _, polygon := range shape {
		for _, ring := range polygon {
			for i := 1; i < len(ring); i++ {
				lat := (ring[i-1][1] + ring[i][1]) / 2
				sum += grid.Box{North: lat, East: 1}.Area() * (ring[i-1][0] - ring[i][0])
			}
		}
	}
	return math.Abs(sum)
}

// kmBetween is the length of a pixel in the middle of the island, from the
// 111.13 km of a degree of latitude at 45° (WGS 84).
func kmBetween(p *render.Map, s island) float64 {
	c := grid.LonLat{Lon: s.west + s.width/2, Lat: 45}
	a, b := p.Pixel(c), p.Pixel(grid.LonLat{Lon: c.Lon, Lat: c.Lat + 0.5})
	return 111.13 / 2 / math.Hypot(a.X-b.X, a.Y-b.Y)
}
