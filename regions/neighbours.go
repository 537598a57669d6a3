package regions

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"weekband/grid"
)

// Neighbour is a region beside another.
type Neighbour struct {
	Region int     // index in the set
	Border float64 // length of the common border, km; 0 when they do not touch
	Apart  float64 // how far off it is, km, when they do not touch
}

// mostNearest is how many of the nearest regions one without neighbours gets.
const mostNearest = 3

// Neighbours returns, for each region, those that share a border with it, the
// longest first. Regions that meet only in points share none. A region without
// any gets the three nearest instead, with Border 0 and how far their outlines
// are apart. Borders are shared where they run through equal vertices; lengths
// are on the sphere of grid.EarthKm.
func (s Set) Neighbours() [][]Neighbour {
	t := s.Topology()
	lengths := make([]map[int]float64, len(s.Regions))
	for line, sides := range t.Sides() {
		if len(sides) < 2 {
			continue
		}
		km := lengthOf(t.Lines[line])
		for _, a := range sides {
			for _, b := range sides {
				if a != b {
					if lengths[a] == nil {
						lengths[a] = map[int]float64{}
					}
					lengths[a][b] += km
				}
			}
		}
	}
	out := make([][]Neighbour, len(s.Regions))
	var shores []shore
	for i := range out {
		for other, km := range lengths[i] {
			out[i] = append(out[i], Neighbour{Region: other, Border: km})
		}
		slices.SortFunc(out[i], func(a, b Neighbour) int {
			return cmp.Or(cmp.Compare(b.Border, a.Border), cmp.Compare(a.Region, b.Region))
		})
		if out[i] == nil {
			if shores == nil {
				shores = s.shores()
			}
			out[i] = nearest(shores, i)
		}
	}
	return out
}

// lengthOf returns the length of a line in km.
func lengthOf(line orb.LineString) float64 {
	sum := 0.0
	for i := 1; i < len(line); i++ {
		a, b := globe(line[i-1]), globe(line[i])
		sum += a.Distance(&b)
	}
	return sum
}

func globe(p orb.Point) grid.Globe { return grid.LonLat{Lon: p[0], Lat: p[1]}.Globe() }

// shore is the outline of a region on the sphere, in runs of edges with a ball
// around each.
type shore []run

// run is a part of an outline: its places, and a ball that holds them.
type run struct {
	places []grid.Globe
	centre grid.Globe
	radius float64 // km
}

// runLength is how many edges a run has.
const runLength = 32

func (s Set) shores() []shore {
	out := make([]shore, len(s.Regions))
	for i, r := range s.Regions {
		for _, polygon := range r.Shape {
			for _, ring := range polygon {
				places := make([]grid.Globe, len(ring))
				for k, p := range ring {
					places[k] = globe(p)
				}
				for k := 0; k+1 < len(places); k += runLength {
					out[i] = append(out[i], newRun(places[k:min(k+runLength+1, len(places))]))
				}
			}
		}
	}
	return out
}

func newRun(places []grid.Globe) run {
	r := run{places: places}
	for _, p := range places {
		for k := range p {
			r.centre[k] += p[k] / float64(len(places))
		}
	}
	for i := range places {
		r.radius = max(r.radius, r.centre.Distance(&places[i]))
	}
	return r
}

// nearest returns the regions nearest to one, the nearest first.
func nearest(shores []shore, of int) []Neighbour {
	var out []Neighbour
	beyond := math.Inf(1) // which is of no use any more
	for i, other := range shores {
		if i == of || len(other) == 0 {
			continue
		}
		km := shores[of].apart(other, beyond)
		if km >= beyond {
			continue
		}
		out = append(out, Neighbour{Region: i, Apart: km})
		slices.SortStableFunc(out, func(a, b Neighbour) int { return cmp.Compare(a.Apart, b.Apart) })
		if len(out) >= mostNearest {
			out = out[:mostNearest]
			beyond = out[mostNearest-1].Apart
		}
	}
	return out
}

// apart returns the least distance of two outlines in km, or some distance
// from beyond on when it is no less than that.
func (s shore) apart(o shore, beyond float64) float64 {
	for i := range s {
		for k := range o {
			a, b := &s[i], &o[k]
			if a.centre.Distance(&b.centre)-a.radius-b.radius < beyond {
				beyond = min(beyond, a.apart(b), b.apart(a))
			}
		}
	}
	return beyond
}

// apart returns the least distance of the places of a run from the edges of
// another in km.
func (r *run) apart(o *run) float64 {
	least := math.Inf(1)
	for i := range r.places {
		p := &r.places[i]
		if o.centre.Distance(p)-o.radius >= least {
			continue
		}
		for k := 1; k < len(o.places); k++ {
			least = min(least, fromEdge(p, &o.places[k-1], &o.places[k]))
		}
	}
	return least
}

// fromEdge returns the distance of a place from the straight line between two
// others in km.
func fromEdge(p, a, b *grid.Globe) float64 {
	var along, square float64
	for k := range p {
		along += float64((p[k] - a[k]) * (b[k] - a[k]))
		square += float64((b[k] - a[k]) * (b[k] - a[k]))
	}
	f := 0.0
	if square > 0 {
		f = max(0, min(1, along/square))
	}
	q := grid.Globe{a[0] + float64(f*(b[0]-a[0])), a[1] + float64(f*(b[1]-a[1])), a[2] + float64(f*(b[2]-a[2]))}
	return p.Distance(&q)
}
