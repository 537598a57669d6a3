package crossing

import (
	"math"
	"math/bits"

	"weekband/grid/curve"
	"weekband/grid/season"
)

// Course is a typical year of temperatures that tells any of its days at once.
type Course interface {
	// On returns the temperature in °C at 0:00 of a day, 0 for 1 January to 364.
	On(day int) float64
	// Bulge returns how far the year may lie above or below the values at both
	// ends of a step of its curve.Sketch, in K.
	Bulge() float64
	// Kinks returns the moments of the Sketch, as bits, in the steps around
	// which it may lie further below.
	Kinks() uint32
}

// Seek is Find for a year of which the Sketch is known, without its extremes:
// it looks at some days only, and is right to some thousandths of a day. Where
// a year may cool through the level next to its Kinks ok is false and the
// crossing means nothing: Find tells.
func Seek(c Course, s *curve.Sketch, trigger Trigger) (found Crossing, ok bool) {
	k := seeker{course: c, sketch: s, level: float64(trigger.Level), sign: 1, bulge: c.Bulge()}
	deep, shallow := s.Around(k.level, k.bulge) // short of the level for certain, or perhaps
	kinks := c.Kinks()
	if trigger.Direction == Cooling {
		deep, shallow = ^shallow, ^deep
		k.sign, k.level = -1, -k.level
		if kinks&shallow != 0 {
			return Crossing{}, false
		}
	} else {
		shallow |= kinks
	}
	switch {
	case shallow == 0:
		return Crossing{Reason: outside(trigger.Direction, true)}, true
	case deep == math.MaxUint32:
		return Crossing{Reason: outside(trigger.Direction, false)}, true
	case deep == 0 || !oneRun(deep) || shallow != math.MaxUint32 && !oneRun(shallow):
		found, ok = k.fromOrigin(trigger.Direction)
	default:
		found, ok = k.climb(lastOf(deep)) // the origin lies among the deep ones
	}
	if !ok {
		found = Crossing{Reason: outside(trigger.Direction, false)}
	}
	return found, true
}

// fromOrigin finds the crossing from the coldest day on, or the warmest; ok is
// false where no day of the year reaches the level. It comes to this in one cell
// of a hundred, so that the extremes are not worth keeping for whoever asks for
// them too.
func (k *seeker) fromOrigin(d Direction) (found Crossing, ok bool) {
	coldest, warmest := Extremes(k.course, k.sketch)
	if d == Cooling {
		coldest = warmest
	}
	day := int(coldest.Day) - 1
	if k.sign*float64(coldest.At) >= k.level {
		return Crossing{Reason: outside(d, true)}, true
	}
	j := int(float64(day)/curve.SketchStep) + 1
	before, here := k.on(day-1), k.on(day)
	for ; float64(day) < float64(float64(j)*curve.SketchStep); day++ {
		next := k.on(day + 1)
		if next >= k.level {
			return k.between(day, before, here, next), true
		}
		before, here = here, next
	}
	return k.climb(j % len(k.sketch))
}

// oneRun reports whether the bits that are set follow each other, the first
// after the last.
func oneRun(b uint32) bool { return bits.OnesCount32(b^bits.RotateLeft32(b, 1)) == 2 }

// lastOf returns the last bit of the only run of bits.
func lastOf(run uint32) int { return bits.TrailingZeros32(run &^ bits.RotateLeft32(run, -1)) }

// seeker looks for the first moment at or past a level. Its temperatures are
// signed, so that they rise through it.
type seeker struct {
	course      Course
	sketch      *curve.Sketch
	level, sign float64
	bulge       float64 // K, toward the level
}

// climb finds the crossing from moment j of the sketch on, which is short of
// the level; ok is false where no day of the year reaches it.
func (k *seeker) climb(j int) (found Crossing, ok bool) {
	here := float64(k.sign * k.sketch[j])
	for range len(k.sketch) {
		next := float64(k.sign * k.sketch[(j+1)%len(k.sketch)])
		switch {
		case next >= k.level && next-here >= 4*k.bulge: // it rises all the way
			guess := (float64(j) + (k.level-here)/(next-here)) * curve.SketchStep
			return k.near(int(guess)), true
		case next >= k.level || curve.Dips(k.level-here, k.level-next, k.bulge):
			if found, ok := k.days(j); ok {
				return found, true
			}
		}
		j, here = (j+1)%len(k.sketch), next
	}
	return Crossing{}, false
}

// on returns the temperature of any day from 1 January, of whatever year.
func (k *seeker) on(day int) float64 {
	return float64(k.sign * k.course.On((day+season.YearDays)%season.YearDays))
}

// near finds the crossing of a stretch that rises all the way, from a day close
// by.
func (k *seeker) near(day int) Crossing {
	before, here, next := k.on(day-1), k.on(day), k.on(day+1)
	for here >= k.level {
		day--
		before, here, next = k.on(day-1), before, here
	}
	for next < k.level {
		day++
		before, here, next = here, next, k.on(day+1)
	}
	return k.between(day, before, here, next)
}

// days finds the crossing in step j, from which on it is short of the level,
// day by day.
func (k *seeker) days(j int) (found Crossing, ok bool) {
	first := int(float64(j) * curve.SketchStep)
	before, here := k.on(first-1), k.on(first)
	for day := first; day <= int(float64(j+1)*curve.SketchStep); day++ {
		next := k.on(day + 1)
		if here < k.level && next >= k.level {
			return k.between(day, before, here, next), true
		}
		before, here = here, next
	}
	return Crossing{}, false
}

// between finds the crossing within a day, on a parabola through its ends and
// the day before.
func (k *seeker) between(day int, before, here, next float64) Crossing {
	// here + rise·u + bend·u², with u = 0 here and 1 next
	bend := (before+next)/2 - here
	rise, over := (next-before)/2, k.level-here
	u := 2 * over / (rise + math.Sqrt(max(float64(rise*rise)+float64(4*bend*over), 0)))
	u = min(max(u, 0), 1)
	found := Crossing{Day: (season.Day(day+1) + season.Day(u)).In(), Slope: rise + float64(2*bend*u), Reason: Dated}
	if found.Slope < FlatSlope {
		found.Reason = Flat
	}
	return found
}
