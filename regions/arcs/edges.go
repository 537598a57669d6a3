package arcs

import (
	"math"

	"github.com/paulmach/orb"
)

// edgeIndex finds the edge of any ring that lies next to the west of a point.
// Edges are kept in square buckets, in each that their box touches.
type edgeIndex struct {
	rings      []orb.Ring
	low        orb.Point
	side       float64 // of a bucket
	cols, rows int
	head       []int32 // first entry of a bucket, -1 for none
	entries    []edgeEntry
}

type edgeEntry struct{ ring, edge, after int32 }

// newEdgeIndex leaves out rings of area 0.
func newEdgeIndex(rings []orb.Ring, area []float64) *edgeIndex {
	x := &edgeIndex{rings: rings, cols: 1, rows: 1}
	bound := rings[0].Bound()
	extent, edges := 0.0, 0
	for _, ring := range rings {
		bound = bound.Union(ring.Bound())
		for i := 1; i < len(ring); i++ {
			extent += max(math.Abs(ring[i][0]-ring[i-1][0]), math.Abs(ring[i][1]-ring[i-1][1]))
			edges++
		}
	}
	width, height := bound.Right()-bound.Left(), bound.Top()-bound.Bottom()
	x.low = bound.Min
	// Buckets as large as the mean edge, but no more of them than edges.
	x.side = max(extent/float64(max(edges, 1)), math.Sqrt(width*height/float64(max(edges, 1))), max(width, height)/8192)
	if x.side > 0 {
		x.cols, x.rows = int(width/x.side)+1, int(height/x.side)+1
	}
	x.head = make([]int32, x.cols*x.rows)
	for i := range x.head {
		x.head[i] = -1
	}
	for r, ring := range rings {
		for i := 1; i < len(ring) && area[r] != 0; i++ {
			x.add(r, i-1, ring[i-1], ring[i])
		}
	}
	return x
}

func (x *edgeIndex) add(ring, edge int, a, b orb.Point) {
	if a[1] == b[1] { // never to the west of anything
		return
	}
	west, east := x.col(min(a[0], b[0])), x.col(max(a[0], b[0]))
	for row := x.row(min(a[1], b[1])); row <= x.row(max(a[1], b[1])); row++ {
		for col := west; col <= east; col++ {
			bucket := row*x.cols + col
			x.entries = append(x.entries, edgeEntry{int32(ring), int32(edge), x.head[bucket]})
			x.head[bucket] = int32(len(x.entries) - 1)
		}
	}
}

func (x *edgeIndex) col(at float64) int {
	return min(max(int((at-x.low[0])/x.side), 0), x.cols-1)
}

func (x *edgeIndex) row(at float64) int {
	return min(max(int((at-x.low[1])/x.side), 0), x.rows-1)
}

// west returns the ring whose edge is the first to the west of p, which lies
// on an edge itself. ok is false when there is none or when it has the inside
// of its polygon on the far side.
func (x *edgeIndex) west(p orb.Point, ownRing, ownEdge int) (ring int, ok bool) {
	row, best, found := x.row(p[1]), math.Inf(-1), false
	for col := x.col(p[0]); col >= 0; col-- {
		for at := x.head[row*x.cols+col]; at >= 0; at = x.entries[at].after {
			e := x.entries[at]
			a, b := x.rings[e.ring][e.edge], x.rings[e.ring][e.edge+1]
			if (a[1] > p[1]) == (b[1] > p[1]) || int(e.ring) == ownRing && int(e.edge) == ownEdge {
				continue
			}
			if lon := a[0] + float64((p[1]-a[1])/(b[1]-a[1])*(b[0]-a[0])); lon <= p[0] && lon > best {
				best, ring, found, ok = lon, int(e.ring), true, a[1] > b[1]
			}
		}
		if found && best >= x.low[0]+float64(float64(col)*x.side) {
			break
		}
	}
	return ring, ok
}
