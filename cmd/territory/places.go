package main

import (
	"cmp"
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"

	"weekband/grid"
)

// place is a town or village.
type place struct {
	name   string
	at     grid.LonLat
	region int
	kind   kind
	size   float64 // only its order means something
	code   string
	rank   int // 1 for the chief towns, 3 for villages
}

// fewest is how many places each region has at least.
const fewest = 3

// townsfolk places people on the land: by kind of site, best sites first, and
// then in the regions that were left with too few.
type townsfolk struct {
	land   *land
	found  [kinds][]candidate
	home   func(grid.LonLat) int // the region of a point with a climate, or sea
	places []place
	named  [kinds]int
}

func settlePlaces(l *land, home func(grid.LonLat) int) []place {
	t := &townsfolk{land: l, found: survey(l), home: home}
	for k := range kinds {
		t.take(k, habits[k].most, habits[k].apart, func(int) bool { return true })
	}
	for region := range theRegions {
		for _, k := range []kind{country, river, upland, island, harbour} {
			lack := fewest - t.count(region)
			t.take(k, lack, 15, func(r int) bool { return r == region })
		}
	}
	t.rank()
	t.number()
	return t.places
}

// take founds up to most places of a kind, apart km from all others, in
// regions that suit.
func (t *townsfolk) take(k kind, most int, apart float64, suits func(region int) bool) {
	for _, c := range t.found[k] {
		if most <= 0 || t.named[k] == len(placeNames[k]) {
			return
		}
		p := t.spot(c.node)
		region := t.home(p)
		if region == sea || !suits(region) || t.nearest(p) < apart {
			continue
		}
		t.places = append(t.places, place{
			name: placeNames[k][t.named[k]], at: p, region: region, kind: k,
			size: habits[k].pull + math.Log(1+t.land.rivers.area[c.node])/5 - t.land.height.v[c.node]/900,
		})
		t.named[k]++
		most--
	}
}

// spot returns a position near the middle of node i; no two places should
// line up with the mesh.
func (t *townsfolk) spot(i int) grid.LonLat {
	p := center(t.land.height.g, i)
	q := planOf(p)
	return grid.LonLat{
		Lon: round(p.Lon+0.006*settleSeed.at(q.x*37, q.y*37), 4),
		Lat: round(p.Lat+0.006*settleSeed.at(q.y*41, q.x*41), 4),
	}
}

func (t *townsfolk) nearest(p grid.LonLat) float64 {
	best, q := math.Inf(1), planOf(p)
	for _, o := range t.places {
		r := planOf(o.at)
		best = min(best, hypot(q.x-r.x, q.y-r.y)*kmPerDegree)
	}
	return best
}

func (t *townsfolk) count(region int) int {
	n := 0
	for _, p := range t.places {
		if p.region == region {
			n++
		}
	}
	return n
}

// rank sorts the places by size: nine chief towns, two dozen market towns and
// the villages.
func (t *townsfolk) rank() {
	slices.SortStableFunc(t.places, func(a, b place) int { return cmp.Compare(b.size, a.size) })
	for i := range t.places {
		switch {
		case i < 9:
			t.places[i].rank = 1
		case i < 33:
			t.places[i].rank = 2
		default:
			t.places[i].rank = 3
		}
	}
}

// number gives each place the code of its region and a number that rises
// from north to south.
func (t *townsfolk) number() {
	slices.SortStableFunc(t.places, func(a, b place) int {
		return cmp.Or(cmp.Compare(a.region, b.region), cmp.Compare(b.at.Lat, a.at.Lat))
	})
	next := 0
	for i := range t.places {
		p := &t.places[i]
		if i == 0 || p.region != t.places[i-1].region {
			next = 110
		}
		p.code = fmt.Sprintf("%s-%d", theRegions[p.region].code, next)
		next += 10 + 3*(i%4)
	}
}

// writePlaces writes one line for each place.
func writePlaces(w io.Writer, places []place) error {
	out := csv.NewWriter(w)
	lines := [][]string{{"name", "lat", "lon", "code", "region", "rank"}}
	for _, p := range places {
		lines = append(lines, []string{
			p.name, strconv.FormatFloat(p.at.Lat, 'f', 4, 64), strconv.FormatFloat(p.at.Lon, 'f', 4, 64),
			p.code, theRegions[p.region].name, strconv.Itoa(p.rank),
		})
	}
	return out.WriteAll(lines)
}
