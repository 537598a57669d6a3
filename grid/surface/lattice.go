package surface

import (
	"math"
	"sync"

	"weekband/grid"
)

// A lattice of nodes lies over the grid of a Surface. At each node the system
// of its nearest stations is solved once; a cell blends the estimates of the
// four nodes around it, each with the weight of bilinear interpolation. So the
// surface has no seams: where a node takes over from another, its weight
// begins at 0. A cell at a node is estimated from that node alone.
type lattice struct {
	model    *Model
	grid     grid.Grid
	down, by int // cells from node to node
	keep     int // rows of nodes held in memory

	mu    sync.Mutex
	rows  map[int]*nodeRow
	clock int
}

// nodeRow is one row of nodes, each solved when it is first needed.
type nodeRow struct {
	nodes []node
	used  int // time of last use
}

type node struct {
	once sync.Once
	solver
	sill [months]float64
}

const (
	// spacing is the way from node to node as a share of the radius of a
	// neighbourhood. See doc.go for what it costs.
	spacing = 0.15
	// memory bounds the nodes held at a time, bytes; four rows are held in any
	// case.
	memory = 128 << 20
)

func newLattice(m *Model, g grid.Grid) *lattice {
	step := spacing * m.reachKm
	mid := math.Cos(g.Box().Center().Lat * math.Pi / 180)
	l := &lattice{model: m, grid: g, rows: map[int]*nodeRow{}}
	l.down = max(1, int(step/(g.StepLat()*grid.KmPerDegree)))
	l.by = max(1, int(step/(g.StepLon()*grid.KmPerDegree*mid)))
	k := min(m.net.k, len(m.net.list))
	each := 8 * (packed(k) + k*(months+2*terms+months+4+2))
	l.keep = max(4, memory/(each*l.cols()))
	return l
}

// cols returns how many nodes a row has: the last lies at or past the last
// column.
func (l *lattice) cols() int { return (l.grid.Cols()-1+l.by-1)/l.by + 1 }

// row returns a row of nodes, and forgets the one not used for longest when
// there are too many. A row in use elsewhere lives on until it is done with.
func (l *lattice) row(i int) *nodeRow {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.clock++
	r := l.rows[i]
	if r == nil {
		if len(l.rows) >= l.keep {
			oldest, at := l.clock, -1
			for j, r := range l.rows {
				if r.used < oldest {
					oldest, at = r.used, j
				}
			}
			delete(l.rows, at)
		}
		r = &nodeRow{nodes: make([]node, l.cols())}
		l.rows[i] = r
	}
	r.used = l.clock
	return r
}

// node returns node j of row i, solved.
func (l *lattice) node(r *nodeRow, i, j int) *node {
	n := &r.nodes[j]
	n.once.Do(func() {
		at := l.grid.Center(grid.Cell{Row: i * l.down, Col: j * l.by}) // also past the grid
		at.Lat = min(max(at.Lat, -90), 90)
		n.buildAt(&l.model.net, at, -1, l.model.cov)
		n.sill = l.model.scale(&n.misfit, n.trust)
		n.column, n.data.drift, n.data.values = nil, nil, nil // only building needs them
	})
	return n
}
