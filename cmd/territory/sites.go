package main

import (
	"cmp"
	"math"
	"slices"
)

// kind is why people settled at a place.
type kind int

const (
	mouth      kind = iota // a river reaches the sea
	confluence             // two rivers meet
	island                 // the best landing of an island
	harbour                // a sheltered bay
	river                  // a crossing on a river
	upland                 // a pass or the head of a valley
	country                // good open land
	kinds
)

// habit says how a kind of site is filled.
type habit struct {
	most  int     // places
	apart float64 // km to every older place
	pull  float64 // what the kind adds to the size of a place
}

var habits = [kinds]habit{
	mouth:      {most: 13, apart: 45, pull: 2.2},
	confluence: {most: 8, apart: 40, pull: 1.8},
	island:     {most: 14, apart: 46, pull: 0.4},
	harbour:    {most: 14, apart: 52, pull: 1.0},
	river:      {most: 17, apart: 42, pull: 0.9},
	upland:     {most: 9, apart: 66, pull: 0},
	country:    {most: 13, apart: 58, pull: 0.3},
}

// candidate is a node where a place of a kind could be.
type candidate struct {
	node  int
	score float64
}

// survey scores every node of the land for every kind.
func survey(l *land) [kinds][]candidate {
	g := l.height.g
	dry := newField(g)
	for i := range dry.v {
		if !l.isSea(i) {
			dry.v[i] = 1
		}
	}
	shelter, rough := dry.blur(3), l.unevenness()
	size := l.landmassKm2()
	arms := l.arms(500)
	var found [kinds][]candidate
	add := func(k kind, i int, score float64) { found[k] = append(found[k], candidate{i, score}) }
	for i, h := range l.height.v {
		if l.isSea(i) {
			continue
		}
		area, onCoast := l.rivers.area[i], l.besideSea(i)
		calm := math.Exp(-rough.v[i] / 120)
		switch {
		case onCoast && size[i] < wholeIslandKm2:
			add(island, i, shelter.v[i]+size[i]/3000)
		case onCoast && area > 900 && l.isSea(l.rivers.to[i]):
			add(mouth, i, area)
		case onCoast:
			add(harbour, i, shelter.v[i])
		case arms[i] >= 2 && h < 600:
			add(confluence, i, l.rivers.area[i])
		case area > 700 && h < 500:
			add(river, i, math.Sqrt(area)*calm)
		case h > 450 && h < 2600:
			add(upland, i, calm*math.Log(area+1)*min(h, 1000)/800)
		case h > 15 && h < 450 && shelter.v[i] > 0.999:
			add(country, i, calm-math.Abs(h-110)/300)
		}
	}
	for k := range found {
		slices.SortFunc(found[k], func(a, b candidate) int {
			return cmp.Or(cmp.Compare(b.score, a.score), cmp.Compare(a.node, b.node))
		})
	}
	return found
}

// unevenness is how far, in m, heights around a node stray from their mean.
func (l *land) unevenness() field {
	mean := l.height.blur(3)
	for i, h := range l.height.v {
		mean.v[i] = math.Abs(h - mean.v[i])
	}
	return mean.blur(3)
}

// landmassKm2 returns for every node the area of the landmass it lies on.
func (l *land) landmassKm2() []float64 {
	g := l.height.g
	east, south := kmSteps(g)
	size := make([]float64, g.Cells())
	for _, mass := range patches(g, l.element) {
		for _, i := range mass {
			size[i] = float64(len(mass)) * east * south
		}
	}
	return size
}

// arms counts for every node the rivers of at least km² that run into it.
func (l *land) arms(km2 float64) []int {
	n := make([]int, len(l.rivers.to))
	for i, to := range l.rivers.to {
		if to != i && l.rivers.area[i] >= km2 {
			n[to]++
		}
	}
	return n
}

func (l *land) besideSea(i int) bool {
	found := false
	beside(l.height.g, i, func(j int) { found = found || l.isSea(j) })
	return found
}
