package bands

// arc is a line between two junctions, or a closed one, with one label on
// each side all along.
type arc struct {
	nodes       []int32
	left, right int16
}

func (a arc) first() int32 { return a.nodes[0] }
func (a arc) last() int32  { return a.nodes[len(a.nodes)-1] }

// closed reports whether the arc ends where it begins.
func (a arc) closed() bool { return a.first() == a.last() }

// bounds reports whether the arc is part of the outline of the field.
func (a arc) bounds() bool { return a.left == outside || a.right == outside }

// chain joins the pieces into arcs. Every piece becomes part of one arc.
func (t *tracer) chain() []arc {
	c := newChainer(t)
	var arcs []arc
	for n := range t.nodes {
		if !c.through[n] {
			for _, end := range c.at(int32(n)) {
				if !c.used[end/2] {
					arcs = append(arcs, c.walk(end))
				}
			}
		}
	}
	for i := range t.pieces { // closed lines without a junction
		if !c.used[i] {
			arcs = append(arcs, c.walk(int32(2*i)))
		}
	}
	return arcs
}

// chainer knows which pieces meet at each node. End 2i leaves the node where
// piece i begins, end 2i+1 leaves the node where it ends, backwards.
type chainer struct {
	pieces  []piece
	offset  []int32
	ends    []int32
	through []bool // two pieces meet here and go on as one line
	used    []bool
}

func newChainer(t *tracer) *chainer {
	c := &chainer{
		pieces: t.pieces, offset: make([]int32, len(t.nodes)+1), ends: make([]int32, 2*len(t.pieces)),
		through: make([]bool, len(t.nodes)), used: make([]bool, len(t.pieces)),
	}
	for _, p := range t.pieces {
		c.offset[p.from+1]++
		c.offset[p.to+1]++
	}
	for n := range t.nodes {
		c.offset[n+1] += c.offset[n]
	}
	fill := append([]int32(nil), c.offset...)
	for i, p := range t.pieces {
		c.ends[fill[p.from]] = int32(2 * i)
		fill[p.from]++
		c.ends[fill[p.to]] = int32(2*i + 1)
		fill[p.to]++
	}
	for n := range t.nodes {
		if ends := c.at(int32(n)); len(ends) == 2 {
			left, right := c.sides(ends[0])
			backLeft, backRight := c.sides(ends[1])
			c.through[n] = left == backRight && right == backLeft
		}
	}
	return c
}

// at returns the ends that leave a node.
func (c *chainer) at(n int32) []int32 { return c.ends[c.offset[n]:c.offset[n+1]] }

// sides returns the labels left and right of a piece run from one end.
func (c *chainer) sides(end int32) (left, right int16) {
	p := c.pieces[end/2]
	if end%2 == 1 {
		return p.right, p.left
	}
	return p.left, p.right
}

// walk follows a line from one end to the next junction or back to where it
// began.
func (c *chainer) walk(end int32) arc {
	var a arc
	a.left, a.right = c.sides(end)
	n := c.pieces[end/2].from
	if end%2 == 1 {
		n = c.pieces[end/2].to
	}
	a.nodes = append(a.nodes, n)
	for !c.used[end/2] {
		c.used[end/2] = true
		p := c.pieces[end/2]
		n = p.to
		if end%2 == 1 {
			n = p.from
		}
		a.nodes = append(a.nodes, n)
		if !c.through[n] {
			break
		}
		ends := c.at(n)
		if end ^= 1; ends[0] == end { // go on by the other of the two
			end = ends[1]
		} else {
			end = ends[0]
		}
	}
	return a
}
