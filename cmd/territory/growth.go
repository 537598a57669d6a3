package main

import "math"

// What it costs to settle the land, in km of easy walking. Borders come to
// lie where two regions' settlers meet, so rivers and crests hold them back.
const (
	climbCost = 0.075 // per metre up or down
	riverCost = 42.0  // to cross a river that drains riverKm2
	riverKm2  = 1500.0
	seaCost   = 2.6 // times the distance
)

// settle returns for every node the number of the region that reaches it
// first, over sea as well; on every landmass a region is in one piece.
func settle(l *land, seats []plan) []int {
	g := l.height.g
	owner := make([]int, g.Cells())
	cost := make([]float64, g.Cells())
	for i := range owner {
		owner[i], cost[i] = -1, -1
	}
	var q queue
	claim := func(i, region int, km float64) {
		if owner[i] < 0 || km < cost[i] {
			owner[i], cost[i] = region, km
			q.push(km, i)
		}
	}
	for k, at := range seats {
		claim(nodeAt(g, at), k, 0)
	}
	for q.len() > 0 {
		e := q.next()
		if e.rank > cost[e.node] {
			continue
		}
		around(g, e.node, func(j int, km float64) {
			claim(j, owner[e.node], e.rank+l.walk(e.node, j, km))
		})
	}
	unite(l, owner)
	return owner
}

// walk returns the cost of the way between neighbours.
func (l *land) walk(i, j int, km float64) float64 {
	if l.isSea(i) || l.isSea(j) {
		return seaCost * km
	}
	rise := l.height.v[j] - l.height.v[i]
	thicket := settleSeed.rough(planOf(center(l.height.g, j)), 0.4, 5)
	cost := km*math.Exp(1.8*thicket) + climbCost*max(rise, -rise)
	if l.rivers.area[j] > riverKm2 && l.rivers.area[i] <= riverKm2 {
		cost += riverCost * between(l.rivers.area[j]/riverKm2/2, 1, 5)
	}
	return cost
}
