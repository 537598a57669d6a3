package curve

import (
	"math"
	"math/bits"

	"weekband/grid/season"
)

// Bulge returns how far the curve may rise above, or fall below, the values at
// both ends of a step of a Sketch.
func (c *Curve) Bulge() float64 { return float64(c.Bend() * (SketchStep * SketchStep / 8)) }

// Dips reports whether a curve that may bulge so far can pass a level between
// two moments of a Sketch at which it lies over and next above the level.
// Where it rises or falls steeply it cannot.
func Dips(over, next, bulge float64) bool {
	return min(over, next) < bulge && math.Abs(next-over) < 4*bulge
}

// Under returns the moments of a Sketch at which the temperature is below a
// level, as bits: bit j is that of element j.
func (s *Sketch) Under(level float64) (moments uint32) {
	for _, v := range s { // bit 0 comes first and is moved down from the top
		moments = moments>>1 | minus(v-level)
	}
	return moments
}

// Around returns the moments of a Sketch at which the temperature is below a
// level by more than some kelvins, and those at which it is below the level
// raised by as much, as Under does.
func (s *Sketch) Around(level, by float64) (deep, shallow uint32) {
	low, high := level-by, level+by
	for _, v := range s {
		deep = deep>>1 | minus(v-low)
		shallow = shallow>>1 | minus(v-high)
	}
	return deep, shallow
}

// minus returns the sign of a number in the top bit, without a branch.
func minus(v float64) uint32 { return uint32(math.Float64bits(v)>>32) & (1 << 31) }

// Zeros writes the moments at which the curve passes 0 °C, in days since 1
// January 0:00 and in their order, and returns their number, which is even. s
// is the curve's Sketch and bulge its Bulge. Of passes there and back within a
// day, or back and there again within a step in which it passes anyway, it
// finds none; what it finds is right to 0.02 days unless the curve is flat
// there.
func (c *Curve) Zeros(s *Sketch, bulge float64, zeros *[2 * Order]float64) (n int) {
	below, shallow := s.Around(0, bulge)
	if shallow == 0 {
		return 0
	}
	near := shallow &^ below
	for rest := near; rest != 0; rest &= rest - 1 {
		if j := bits.TrailingZeros32(rest); s[j] < 0 {
			below |= 1 << j
		}
	}
	passed := below ^ bits.RotateLeft32(below, -1) // bit j: between j and the next
	near = (near | bits.RotateLeft32(near, -1)) &^ passed
	for steps := passed | near; steps != 0; steps &= steps - 1 {
		j := bits.TrailingZeros32(steps)
		here, next := s[j], s[(j+1)%len(s)]
		switch {
		case passed>>j&1 == 0:
			if Dips(math.Abs(here), math.Abs(next), bulge) {
				n = c.zerosByDay(j, here, next, zeros, n)
			}
		case n < len(zeros):
			zeros[n] = c.zero(float64(float64(j)*SketchStep), here, next)
			n++
		}
	}
	return n &^ 1
}

// zero returns the moment at which the curve passes 0 °C in the step that
// begins at a moment.
func (c *Curve) zero(begin, here, next float64) float64 {
	day := int(begin + float64(here/(here-next)*SketchStep))
	a, b := c.On(day%season.YearDays), c.On((day+1)%season.YearDays)
	for (a < 0) != (here < 0) && float64(day) > begin {
		day--
		a, b = c.On(day%season.YearDays), a
	}
	for (b < 0) == (here < 0) && float64(day+1) < begin+SketchStep {
		day++
		a, b = b, c.On((day+1)%season.YearDays)
	}
	if a == b {
		return begin
	}
	return min(max(float64(day)+a/(a-b), begin), begin+SketchStep)
}

// zerosByDay appends the zeros within step j, of which both ends lie on one
// side, as its days tell them.
func (c *Curve) zerosByDay(j int, here, next float64, zeros *[2 * Order]float64, n int) int {
	at := float64(float64(j) * SketchStep)
	end := at + SketchStep
	pass := func(to, there float64) {
		if (here < 0) != (there < 0) && n < len(zeros) {
			zeros[n] = at + float64((to-at)*(here/(here-there)))
			n++
		}
		at, here = to, there
	}
	for day := int(at) + 1; float64(day) < end; day++ {
		pass(float64(day), c.On(day%season.YearDays))
	}
	pass(end, next)
	return n
}

// About returns the curve at a moment in days since 1 January 0:00, on a
// parabola through whole days.
func (c *Curve) About(t float64) float64 {
	day := int(t + 0.5)
	before, here, next := c.On((day+season.YearDays-1)%season.YearDays), c.On(day%season.YearDays), c.On((day+1)%season.YearDays)
	u := t - float64(day)
	return here + float64(u*((next-before)/2+float64(u*((next+before)/2-here))))
}
