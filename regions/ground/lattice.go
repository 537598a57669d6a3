package ground

import (
	"cmp"
	"math"
	"math/big"
	"math/bits"

	"github.com/paulmach/orb"
)

// unit is how many steps of the lattice make a degree. A step is a tenth of a
// millimetre on the ground; up to 540° a coordinate takes 40 bits.
const unit = 1e9

// point is a position on the lattice, so that no side is told by a rounded
// number.
type point struct{ x, y int64 }

func snapped(p orb.Point) point {
	return point{int64(math.Round(p[0] * unit)), int64(math.Round(p[1] * unit))}
}

// compare orders points by y, then by x: as if the plane were leaned by less
// than any step, so that no line but one of no length lies level.
func compare(p, q point) int { return cmp.Or(cmp.Compare(p.y, q.y), cmp.Compare(p.x, q.x)) }

// turn is 1 when c lies to the left of the line from a to b, −1 to the right,
// 0 on it. It is exact.
func turn(a, b, c point) int { return crossSign(b.x-a.x, b.y-a.y, c.x-a.x, c.y-a.y) }

// crossSign returns the sign of ax·by − ay·bx.
func crossSign(ax, ay, bx, by int64) int {
	p, q := float64(float64(ax)*float64(by)), float64(float64(ay)*float64(bx))
	if d := p - q; math.Abs(d) > (math.Abs(p)+math.Abs(q))*0x1p-51 {
		return cmp.Compare(d, 0)
	}
	h1, l1 := product(ax, by)
	h2, l2 := product(ay, bx)
	return cmp.Or(cmp.Compare(h1, h2), cmp.Compare(l1, l2))
}

// product returns a·b in 128 bits, two's complement.
func product(a, b int64) (high int64, low uint64) {
	h, l := bits.Mul64(uint64(a), uint64(b))
	high = int64(h)
	if a < 0 {
		high -= b
	}
	if b < 0 {
		high -= a
	}
	return high, l
}

// crossing returns the point of the lattice nearest to where two lines that
// are not parallel cross.
func crossing(s, t *segment) point {
	b := big.NewInt
	mul := func(p, q int64) *big.Int { return new(big.Int).Mul(b(p), b(q)) }
	dx, dy := s.b.x-s.a.x, s.b.y-s.a.y
	ex, ey := t.b.x-t.a.x, t.b.y-t.a.y
	over := new(big.Int).Sub(mul(dx, ey), mul(dy, ex))
	part := new(big.Int).Sub(mul(t.a.x-s.a.x, ey), mul(t.a.y-s.a.y, ex))
	along := func(d int64) int64 { // d·part/over, rounded
		n := new(big.Int).Mul(b(d), part)
		v, _ := new(big.Rat).SetFrac(n, over).Float64()
		return int64(math.Round(v))
	}
	return point{s.a.x + along(dx), s.a.y + along(dy)}
}
