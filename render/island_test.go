package render_test

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"weekband/grid"
	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/render"
	"weekband/render/press"
)

// island is an invented country drawn by bending a unit square: regions and
// bands are cut in the square, so they share edges exactly.
type island struct{ west, south, width, height float64 } // degrees

// merrow is wide, skerry tall.
var (
	merrow = island{west: -34, south: 43, width: 9, height: 4.6}
	skerry = island{west: -31, south: 52, width: 4, height: 5}
)

// at bends the place (u, v) of the square, v from south to north.
func (s island) at(u, v float64) orb.Point {
	x, y := u-0.5, v-0.5
	r := 1 - 0.22*math.Pow(math.Abs(2*x*2*y), 1.3) // round the corners
	x, y = x*r, y*r
	x += 0.035*math.Sin(7*y+1) + 0.018*math.Sin(19*y+8*x) + 0.006*math.Sin(57*y+31*x) + 0.0025*math.Sin(140*y-90*x)
	y += 0.05*math.Sin(5*x+2) + 0.022*math.Sin(16*x-9*y) + 0.007*math.Sin(49*x+23*y) + 0.003*math.Sin(120*x+75*y)
	return orb.Point{s.west + (x+0.5)*s.width, s.south + (y+0.5)*s.height}
}

// ring bends a polygon of the square, corners given as u, v pairs, and closes
// it.
func (s island) ring(corners ...[2]float64) orb.Ring {
	var ring orb.Ring
	for i, a := range corners {
		b := corners[(i+1)%len(corners)]
		steps := int(math.Ceil(math.Hypot(b[0]-a[0], b[1]-a[1]) * 240))
		for k := range steps {
			f := float64(k) / float64(steps)
			ring = append(ring, s.at(a[0]+f*(b[0]-a[0]), a[1]+f*(b[1]-a[1])))
		}
	}
	return append(ring, ring[0])
}

func (s island) rect(u0, v0, u1, v1 float64) orb.Ring {
	return s.ring([2]float64{u0, v0}, [2]float64{u1, v0}, [2]float64{u1, v1}, [2]float64{u0, v1})
}

// round is a circle of the square, for holes: clockwise.
func (s island) round(u, v, radius float64) orb.Ring {
	var ring orb.Ring
	for k := range 72 {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / 72)
		ring = append(ring, s.at(u+radius*cos, v+radius*1.6*sin))
	}
	return append(ring, ring[0])
}

// islet is a small piece of land off the coast.
func (s island) islet(u, v, size float64) orb.Ring {
	var ring orb.Ring
	for k := range 60 {
		a := 2 * math.Pi * float64(k) / 60
		r := size * (1 + 0.25*math.Sin(3*a+9*u) + 0.1*math.Sin(8*a))
		ring = append(ring, orb.Point{s.west + (u+r*math.Cos(a))*s.width, s.south + (v+r*1.5*math.Sin(a))*s.height})
	}
	return append(ring, ring[0])
}

var regionNames = [...]string{
	"Sælby Fen", "Low Haven", "Saint-Éloi-sur-Mer", "Kingsbarrow",
	"Ångermoor", "Merrow Vale", "Tolne", "Îlot Rivage",
	"Great Northern Uplands", "Fjällmark", "Øst Garth", "Pěnkava and Overleigh",
}

// territory cuts the island in four by three regions with islets off it.
func (s island) territory() render.Territory {
	us := [...]float64{0, 0.27, 0.52, 0.70, 1}
	vs := [...]float64{0, 0.31, 0.68, 1}
	var t render.Territory
	for i, name := range regionNames {
		c, r := i%4, i/4
		t.Regions = append(t.Regions, render.Region{Name: name, Shape: orb.MultiPolygon{{s.rect(us[c], vs[r], us[c+1], vs[r+1])}}})
	}
	t.Regions[3].Shape = append(t.Regions[3].Shape, orb.Polygon{s.islet(1.08, 0.12, 0.022)})
	t.Regions = append(t.Regions,
		render.Region{Name: "Gannet Isle", Shape: orb.MultiPolygon{{s.islet(1.1, 0.45, 0.035)}, {s.islet(1.16, 0.57, 0.012)}}},
		render.Region{Name: "Wrack", Shape: orb.MultiPolygon{{s.islet(-0.1, 0.72, 0.013)}}},
	)
	for i := 1; i < 4; i++ {
		t.Borders = append(t.Borders, s.line(us[i], 0, us[i], 1))
	}
	for i := 1; i < 3; i++ {
		t.Borders = append(t.Borders, s.line(0, vs[i], 1, vs[i]))
	}
	t.Coast = append(t.Coast, orb.LineString(s.rect(0, 0, 1, 1)))
	for _, p := range t.Regions[3].Shape[1:] {
		t.Coast = append(t.Coast, orb.LineString(p[0]))
	}
	for _, r := range t.Regions[12:] {
		for _, p := range r.Shape {
			t.Coast = append(t.Coast, orb.LineString(p[0]))
		}
	}
	for i, name := range []string{"Port Merrow", "Ardvík", "Bellasund", "Čerstvá Lhota", "Dunmoor", "Estuary Cross", "Farø", "Glenmarsh"} {
		p := s.at(math.Mod(0.13+0.37*float64(i), 0.96)+0.02, math.Mod(0.09+0.29*float64(i), 0.94)+0.03)
		t.Places = append(t.Places, render.Place{Name: name, At: grid.LonLat{Lon: p[0], Lat: p[1]}, Rank: 1 + i/3})
	}
	return t
}

func (s island) line(u0, v0, u1, v1 float64) orb.LineString {
	var l orb.LineString
	const steps = 240
	for k := range steps + 1 {
		f := float64(k) / steps
		l = append(l, s.at(u0+f*(u1-u0), v0+f*(v1-v0)))
	}
	return l
}

// edge is the wavy line between two bands at height v, from west to east.
func edge(v float64) [][2]float64 {
	if v < 1e-9 || v > 1-1e-9 {
		return [][2]float64{{0, max(0, min(1, v))}, {1, max(0, min(1, v))}}
	}
	var out [][2]float64
	for k := range 61 {
		u := float64(k) / 60
		out = append(out, [2]float64{u, v + 0.03*math.Sin(9*u+4*v) + 0.012*math.Sin(31*u+9*v)})
	}
	return out
}

// stripe is the ground between two heights.
func (s island) stripe(v0, v1 float64) orb.Ring {
	low, high := edge(v0), edge(v1)
	for i := len(high) - 1; i >= 0; i-- {
		low = append(low, high[i])
	}
	return s.ring(low...)
}

const alwaysTo = 0.1 // height of the ground that is always warm

// bandMap shades the island with n bands of a week each from Mar 5 on.
func (s island) bandMap(n int) render.BandMap {
	m := render.BandMap{Caption: press.Caption{
		Title:    "Spring soil warm-up, Merrow Vale and the islands",
		Subtitle: "Typical week when soil at 4 in reaches 55 °F (12.8 °C), warming",
		Source:   "Normals 1991–2020, invented for this example. Edition 2027.",
		Cautions: []string{"Typical conditions, not a forecast. Check your own soil. The product label is the law; local rules and licensed practice come first."},
	}}
	step := (1 - alwaysTo) / float64(n)
	for i := range n {
		w := season.Week(10 + i)
		v0, v1 := alwaysTo+float64(i)*step, alwaysTo+float64(i+1)*step
		polygon := orb.Polygon{s.stripe(v0, v1)}
		b := render.Band{From: w.Begin(), To: w.End(), Label: w.String(), Shape: orb.MultiPolygon{polygon}}
		b.Share = 0.86 * (0.4 + math.Sin(math.Pi*(float64(i)+0.5)/float64(n))) / float64(n)
		m.Bands = append(m.Bands, b)
	}
	s.holes(&m, step)
	for i, islet := range []orb.Ring{s.islet(1.1, 0.45, 0.035), s.islet(1.16, 0.57, 0.012), s.islet(-0.1, 0.72, 0.013), s.islet(1.08, 0.12, 0.022)} {
		b := &m.Bands[(i*3+n/2)%n]
		b.Shape = append(b.Shape, orb.Polygon{islet})
	}
	return m
}

// holes puts a cold plateau into the last band and ground without data into
// the middle one, and marks some ground as uncertain.
func (s island) holes(m *render.BandMap, step float64) {
	last, mid := len(m.Bands)-1, len(m.Bands)/2
	never := s.round(0.42, 1-step*0.45, step*0.2)
	noData := s.round(0.8, alwaysTo+step*(float64(mid)+0.5)+0.02, step*0.12)
	m.Bands[last].Shape[0] = append(m.Bands[last].Shape[0], never)
	m.Bands[mid].Shape[0] = append(m.Bands[mid].Shape[0], noData)
	m.Undated = []render.Undated{
		{Reason: render.Always, Shape: orb.MultiPolygon{{s.stripe(0, alwaysTo)}}, Share: 0.09},
		{Reason: render.Never, Shape: orb.MultiPolygon{{never}}, Share: 0.03},
		{Reason: render.NoData, Shape: orb.MultiPolygon{{noData}}, Share: 0.004},
	}
	m.Uncertain = render.Overlay{Label: "date uncertain", Shape: orb.MultiPolygon{{s.round(0.15, alwaysTo+step, 0.07)}}, Share: 0.02}
}

// frame is the island in one of n frames of a series: the statuses move north.
func (s island) frame(i, n int) render.StatusMap {
	w := season.Week(8 + i)
	m := render.StatusMap{Caption: s.bandMap(2).Caption, Week: w.String()}
	m.Subtitle = "Spring germination of summer annual weeds"
	top := 1.0
	for k, st := range status.All { // resting in the north, past in the south
		low := 0.0
		if k < len(status.All)-1 {
			low = max(0, min(1, 0.9-float64(k)*0.3+1.3*(float64(i)/float64(n)-0.35)))
		}
		if top-low > 0.001 {
			m.Areas = append(m.Areas, render.StatusArea{Status: st, Shape: orb.MultiPolygon{{s.stripe(low, top)}}, Share: top - low})
		}
		top = low
	}
	islets := orb.MultiPolygon{{s.islet(1.1, 0.45, 0.035)}, {s.islet(1.16, 0.57, 0.012)}, {s.islet(-0.1, 0.72, 0.013)}, {s.islet(1.08, 0.12, 0.022)}}
	m.Areas[len(m.Areas)-1].Shape = append(m.Areas[len(m.Areas)-1].Shape, islets...)
	return m
}

// frames is the island in all of n frames.
func (s island) frames(n int) []render.StatusMap {
	out := make([]render.StatusMap, n)
	for i := range out {
		out[i] = s.frame(i, n)
	}
	return out
}

func must[T any](v T, err error) T {
	if err != nil {
		panic(fmt.Sprint("test map: ", err))
	}
	return v
}
