package arcs

import "slices"

// Sides returns, for each line, the shapes it bounds, in order. Within a shape
// a line that is run along and back again bounds nothing.
func (t *Topology) Sides() [][]int {
	sides := make([][]int, len(t.Lines))
	net := map[int32]int{}
	for s, polygons := range t.shapes {
		clear(net)
		for _, rings := range polygons {
			for _, refs := range rings {
				for _, ref := range refs {
					if ref < 0 {
						net[^ref]--
					} else {
						net[ref]++
					}
				}
			}
		}
		for line, n := range net {
			if n != 0 {
				sides[line] = append(sides[line], s)
			}
		}
	}
	for _, shapes := range sides {
		slices.Sort(shapes)
	}
	return sides
}
