package main

import (
	"math"

	"weekband/grid"
)

const (
	provinceNodes  = 400    // of the mesh, for each region
	fewestNodes    = 60_000 // of land
	fewestTogether = 6      // nodes of an island, a lake or a part of a region
	thicketPart    = 0.7    // of a region's width, over which the going changes
	strait         = 2.6    // times the cost on land
	provinceTol    = 0.03   // of a step of the mesh
)

// countryside is a mesh over a continent on which regions grow and places
// are founded.
type countryside struct {
	height field     // above the sea; the rim is water
	dry    []int     // nodes of land
	narrow []float64 // of each row: how much shorter a degree of longitude is than on the equator
}

// countryside reads a continent off a mesh coarse enough for n regions.
func (c continent) countryside(cells grid.Grid, n int, water float64) *countryside {
	nodes := min(max(float64(n*provinceNodes), fewestNodes)/(1-water), 4*float64(cells.Cells()))
	wide, high := c.box.East-c.box.West, c.box.North-c.box.South
	rows := max(3, int(math.Sqrt(nodes*high/wide)))
	g, err := grid.New(c.box, rows, max(3, int(nodes)/rows))
	if err != nil {
		panic(err) // the box of a grid is a box
	}
	out := &countryside{height: newField(g)}
	s := c.over(g)
	for row := range g.Rows() {
		lat := g.Center(grid.Cell{Row: row}).Lat
		out.narrow = append(out.narrow, max(0.05, math.Cos(lat*math.Pi/180)))
		for col, h := range s.row(row).base {
			if row == 0 || col == 0 || row == g.Rows()-1 || col == g.Cols()-1 {
				h = -max(h, -h)
			}
			out.height.v[row*g.Cols()+col] = float64(h)
		}
	}
	out.settleShores()
	return out
}

// settleShores sinks islands and fills lakes too small for the mesh to draw,
// and lists the land.
func (c *countryside) settleShores() {
	h := c.height.v
	for _, p := range patches(c.height.g, func(i int) int { return element(h[i]) }) {
		if len(p) < fewestTogether {
			for _, i := range p {
				h[i] = -h[i]
			}
		}
	}
	for i := range h {
		if h[i] > 0 {
			c.dry = append(c.dry, i)
		}
	}
}

// element is 1 for heights of land and 0 for those of the sea.
func element(height float64) int {
	if height > 0 {
		return 1
	}
	return 0
}

// spread returns n nodes of land about evenly apart, in an order of chance,
// or all when the land has no more.
func (c *countryside) spread(n int, seed noise) []int {
	order := shuffled(c.dry, seed)
	if n >= len(order) {
		return order
	}
	near, far := 0.0, 2*math.Sqrt(float64(len(order))/float64(n))
	best := order
	for range 14 { // steps of the mesh, at the equator
		apart := (near + far) / 2
		if got := c.scatter(order, apart); len(got) >= n {
			best, near = got, apart
		} else {
			far = apart
		}
	}
	return best[:n]
}

// shuffled returns nodes in an order of chance.
func shuffled(nodes []int, seed noise) []int {
	var q queue
	for _, i := range nodes {
		q.push(float64(seed.hash(int64(i), 0)>>11), i)
	}
	out := make([]int, 0, len(nodes))
	for q.len() > 0 {
		out = append(out, q.pop())
	}
	return out
}

// scatter returns those of the nodes that are so far from all kept before.
func (c *countryside) scatter(order []int, apart float64) []int {
	g := c.height.g
	taken := make([]bool, g.Cells())
	var kept []int
	for _, i := range order {
		if taken[i] {
			continue
		}
		kept = append(kept, i)
		row, col := i/g.Cols(), i%g.Cols()
		reach := int(apart)
		for r := max(row-reach, 0); r <= min(row+reach, g.Rows()-1); r++ {
			down := float64(r - row)
			half := int(math.Sqrt(apart*apart-down*down) / c.narrow[r] * c.aspect())
			for k := max(col-half, 0); k <= min(col+half, g.Cols()-1); k++ {
				taken[r*g.Cols()+k] = true
			}
		}
	}
	return kept
}

// aspect is how many steps eastward are as long as one southward, at the
// equator.
func (c *countryside) aspect() float64 { return c.height.g.StepLat() / c.height.g.StepLon() }

// grow returns for every node the number of the seat that reaches it first.
// Chance makes the going easy or hard, so borders wind.
func (c *countryside) grow(seats []int, seed noise) []int {
	g := c.height.g
	wide := thicketPart * math.Sqrt(float64(len(c.dry))/float64(len(seats)))
	hard := make([]float64, g.Cells())
	for i := range hard {
		p := plan{float64(i % g.Cols()), float64(i / g.Cols())}
		hard[i] = math.Exp(2.5 * seed.rough(p, wide, 5))
		if c.height.v[i] <= 0 {
			hard[i] = strait
		}
	}
	owner := make([]int, g.Cells())
	cost := make([]float64, g.Cells())
	for i := range owner {
		owner[i], cost[i] = sea, math.Inf(1)
	}
	var q queue
	claim := func(i, seat int, way float64) {
		if way < cost[i] {
			owner[i], cost[i] = seat, way
			q.push(way, i)
		}
	}
	for k, i := range seats {
		claim(i, k, 0)
	}
	for q.len() > 0 {
		e := q.next()
		if e.rank > cost[e.node] {
			continue
		}
		c.beyond(e.node, func(j int, steps float64) {
			claim(j, owner[e.node], e.rank+float64(steps*(hard[e.node]+hard[j])/2))
		})
	}
	for i, h := range c.height.v {
		if h <= 0 {
			owner[i] = sea
		}
	}
	c.tidy(owner)
	return owner
}

// tidy gives scraps of a region to the neighbour they share most edges with.
func (c *countryside) tidy(owner []int) {
	g := c.height.g
	for _, p := range patches(g, func(i int) int { return owner[i] }) {
		own := owner[p[0]]
		if own == sea || len(p) >= fewestTogether {
			continue
		}
		var beyond []int
		for _, i := range p {
			beside(g, i, func(j int) {
				if owner[j] != sea && owner[j] != own {
					beyond = append(beyond, j)
				}
			})
		}
		if len(beyond) > 0 {
			give(p, owner, chief(beyond, owner))
		}
	}
}

// beyond calls visit with the neighbours of a node and their distances in
// steps of the mesh southward.
func (c *countryside) beyond(i int, visit func(j int, steps float64)) {
	g := c.height.g
	row, col := i/g.Cols(), i%g.Cols()
	east := c.narrow[row] / c.aspect()
	for r := max(row-1, 0); r <= min(row+1, g.Rows()-1); r++ {
		for k := max(col-1, 0); k <= min(col+1, g.Cols()-1); k++ {
			switch j := r*g.Cols() + k; {
			case j == i:
			case r == row:
				visit(j, east)
			case k == col:
				visit(j, 1)
			default:
				visit(j, hypot(east, 1))
			}
		}
	}
}

// provinces returns the land of n regions that fill the continent.
func (c *countryside) provinces(n int, seed noise) []shape {
	owner := c.grow(c.spread(n, seed), seed)
	arcs := newPatchwork(c.height, owner).arcs()
	for i := range arcs {
		arcs[i].smooth(coastSmooth)
		arcs[i].thin(provinceTol * c.height.g.StepLat())
	}
	all := make([]shape, n)
	for k := range all {
		all[k] = assemble(ringsOf(arcs, k))
	}
	return all
}
