package bands

import (
	"math"

	"github.com/paulmach/orb"
)

// half is one side of an arc: the arc run so that the label in question lies
// on its left.
type half struct {
	line     orb.LineString
	back     bool // run the line backwards
	from, to int32
}

// step returns position i of the half, counted in its own direction.
func (h half) step(i int) orb.Point {
	if h.back {
		return h.line[len(h.line)-1-i]
	}
	return h.line[i]
}

// ringsOf joins the halves of one label into simple rings. At a junction
// where the label touches itself the ring takes the next line clockwise from
// the one it came by, which keeps to the same piece of ground; where a ring
// still comes through one junction twice, it is split there.
func ringsOf(halves []half) []orb.Ring {
	leaving := make(map[int32][]int32, len(halves))
	for i, h := range halves {
		leaving[h.from] = append(leaving[h.from], int32(i))
	}
	var rings []orb.Ring
	used := make([]bool, len(halves))
	for i := range halves {
		if used[i] {
			continue
		}
		var path []half
		for at := int32(i); !used[at]; {
			used[at] = true
			path = append(path, halves[at])
			at = follow(halves, leaving[halves[at].to], halves[at])
		}
		rings = append(rings, simpleRings(path)...)
	}
	return rings
}

// follow picks the half that goes on after came, of those that leave the node.
func follow(halves []half, choices []int32, came half) int32 {
	if len(choices) == 1 {
		return choices[0]
	}
	end := len(came.line) - 1
	node := came.step(end)
	back := heading(node, came.step(end-1))
	best, least := choices[0], math.Inf(1)
	for _, c := range choices {
		turn := math.Mod(back-heading(node, halves[c].step(1))+4*math.Pi, 2*math.Pi)
		if turn < least {
			best, least = c, turn
		}
	}
	return best
}

func heading(from, to orb.Point) float64 { return math.Atan2(to[1]-from[1], to[0]-from[0]) }

// simpleRings closes a path of halves into rings that pass no node twice.
func simpleRings(path []half) []orb.Ring {
	var rings []orb.Ring
	var open []half
	depth := map[int32]int{} // node → how many halves of open come before it
	for _, h := range path {
		depth[h.from] = len(open)
		open = append(open, h)
		if d, seen := depth[h.to]; seen && d < len(open) {
			for _, part := range open[d:] {
				delete(depth, part.from)
			}
			rings = append(rings, ringOf(open[d:]))
			open = open[:d]
		}
	}
	return rings
}

func ringOf(path []half) orb.Ring {
	n := 1
	for _, h := range path {
		n += len(h.line) - 1
	}
	ring := make(orb.Ring, 0, n)
	for _, h := range path {
		for i := range len(h.line) - 1 {
			ring = append(ring, h.step(i))
		}
	}
	return append(ring, ring[0])
}
