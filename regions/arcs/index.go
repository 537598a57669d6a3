package arcs

import (
	"math"

	"github.com/paulmach/orb"
)

// vertexIndex finds vertices by place: square buckets, each a linked list.
type vertexIndex struct {
	points     []orb.Point
	low        orb.Point
	side       float64 // of a bucket, coordinate units
	cols, rows int
	head       []int32 // first vertex of a bucket, -1 for none
	after      []int32 // next vertex in the same bucket
	tol        float64 // a vertex this near a triangle counts as in it
}

func newVertexIndex(points []orb.Point) *vertexIndex {
	x := &vertexIndex{points: points, cols: 1, rows: 1, side: 1, after: make([]int32, len(points))}
	bound := orb.MultiPoint(points).Bound()
	width, height := bound.Right()-bound.Left(), bound.Top()-bound.Bottom()
	x.low = bound.Min
	// About one vertex for each bucket, were they spread evenly.
	if area := max(width*height, max(width, height)*1e-6); len(points) > 0 && area > 0 {
		x.side = max(math.Sqrt(area/float64(len(points))), max(width, height)/4096)
		x.cols, x.rows = int(width/x.side)+1, int(height/x.side)+1
	}
	x.tol = 1e-11 * max(width, height) // far above rounding, far below any real gap
	x.head = make([]int32, x.cols*x.rows)
	for i := range x.head {
		x.head[i] = -1
	}
	for i, p := range points {
		b := x.bucket(p)
		x.after[i], x.head[b] = x.head[b], int32(i)
	}
	return x
}

func (x *vertexIndex) col(at float64) int {
	return min(max(int((at-x.low[0])/x.side), 0), x.cols-1)
}

func (x *vertexIndex) row(at float64) int {
	return min(max(int((at-x.low[1])/x.side), 0), x.rows-1)
}

func (x *vertexIndex) bucket(p orb.Point) int { return x.row(p[1])*x.cols + x.col(p[0]) }

func (x *vertexIndex) remove(id int32) {
	link := &x.head[x.bucket(x.points[id])]
	for *link != id {
		link = &x.after[*link]
	}
	*link = x.after[id]
}

// holds reports whether a vertex other than its corners lies in the
// counter-clockwise triangle, or within the tolerance of it.
func (x *vertexIndex) holds(a, b, c orb.Point) bool {
	west, east := x.col(min(a[0], b[0], c[0])-x.tol), x.col(max(a[0], b[0], c[0])+x.tol)
	south, north := x.row(min(a[1], b[1], c[1])-x.tol), x.row(max(a[1], b[1], c[1])+x.tol)
	for row := south; row <= north; row++ {
		for col := west; col <= east; col++ {
			for id := x.head[row*x.cols+col]; id >= 0; id = x.after[id] {
				if p := x.points[id]; p != a && p != b && p != c && x.inTriangle(a, b, c, p) {
					return true
				}
			}
		}
	}
	return false
}

// inTriangle reports whether p lies in the counter-clockwise triangle, or
// within the tolerance of it.
func (x *vertexIndex) inTriangle(a, b, c, p orb.Point) bool {
	if p[0] < min(a[0], b[0], c[0])-x.tol || p[0] > max(a[0], b[0], c[0])+x.tol ||
		p[1] < min(a[1], b[1], c[1])-x.tol || p[1] > max(a[1], b[1], c[1])+x.tol {
		return false
	}
	return x.leftOf(a, b, p) && x.leftOf(b, c, p) && x.leftOf(c, a, p)
}

func (x *vertexIndex) leftOf(a, b, p orb.Point) bool {
	return cross(a, b, p) >= -x.tol*math.Hypot(b[0]-a[0], b[1]-a[1])
}
