package main

import "weekband/grid"

// patches returns the connected pieces of the mesh on which kind is the same,
// each a list of nodes, in the order of their first nodes. Pieces connect over
// edges, not over corners.
func patches(g grid.Grid, kind func(int) int) [][]int {
	seen := make([]bool, g.Cells())
	var all [][]int
	for i := range seen {
		if seen[i] {
			continue
		}
		seen[i] = true
		patch := []int{i}
		for k := 0; k < len(patch); k++ {
			beside(g, patch[k], func(j int) {
				if !seen[j] && kind(j) == kind(i) {
					seen[j] = true
					patch = append(patch, j)
				}
			})
		}
		all = append(all, patch)
	}
	return all
}

// beside calls visit with the up to four neighbours that share an edge.
func beside(g grid.Grid, i int, visit func(j int)) {
	row, col := i/g.Cols(), i%g.Cols()
	if row > 0 {
		visit(i - g.Cols())
	}
	if col > 0 {
		visit(i - 1)
	}
	if col < g.Cols()-1 {
		visit(i + 1)
	}
	if row < g.Rows()-1 {
		visit(i + g.Cols())
	}
}

// wholeIslandKm2 is the area up to which an island is never shared.
const wholeIslandKm2 = 9000.0

// unite gives the smaller pieces of a region on the same landmass to the
// neighbour they have most edges with, and whole islands to their chief
// owner, until every region is in one piece on every landmass.
func unite(l *land, owner []int) {
	g := l.height.g
	east, south := kmSteps(g)
	for _, mass := range patches(g, l.element) {
		if l.isSea(mass[0]) {
			continue
		}
		if float64(len(mass))*east*south < wholeIslandKm2 {
			give(mass, owner, chief(mass, owner))
			continue
		}
		for range 8 { // a piece may first fall to another small piece
			uniteOn(l, mass, owner)
		}
	}
}

func uniteOn(l *land, mass []int, owner []int) {
	g := l.height.g
	onMass := make(map[int]bool, len(mass))
	for _, i := range mass {
		onMass[i] = true
	}
	pieces := patches(g, func(i int) int {
		if !onMass[i] {
			return sea
		}
		return owner[i]
	})
	largest := map[int]int{} // region to size
	for _, p := range pieces {
		if onMass[p[0]] {
			largest[owner[p[0]]] = max(largest[owner[p[0]]], len(p))
		}
	}
	for _, p := range pieces {
		if own := owner[p[0]]; onMass[p[0]] && len(p) < largest[own] {
			var beyond []int
			for _, i := range p {
				beside(g, i, func(j int) {
					if onMass[j] && owner[j] != own {
						beyond = append(beyond, j)
					}
				})
			}
			give(p, owner, chief(beyond, owner))
		}
	}
}

// chief returns the most frequent owner of nodes, the lower number in a tie.
func chief(nodes, owner []int) int {
	count := map[int]int{}
	for _, i := range nodes {
		count[owner[i]]++
	}
	best := -1
	for o, n := range count {
		if best < 0 || n > count[best] || n == count[best] && o < best {
			best = o
		}
	}
	return best
}

func give(nodes, owner []int, to int) {
	for _, i := range nodes {
		owner[i] = to
	}
}
