package worth

import "math"

// mean returns worth, times total, at a moment on average over the ten years
// of a spread, both in steps, and its slope.
func (e *Ending) mean(x, spread float64) (worth, slope float64) {
	first, last := x-float64(latest*spread), x+float64(latest*spread)
	if to := int(e.place(first)); to < e.known {
		e.reach(to)
	}
	if spread == 0 {
		return e.normal(x)
	}
	if first < e.start || last >= e.end || spread < mixed {
		return e.apart(x, spread)
	}
	at := x + float64(spare)
	for _, z := range &late {
		away := float64(z * spread)
		a, b := at-away, at+away
		i, j := int(a), int(b)
		w, rise := value(e.nodes[i], e.nodes[i+1], a-float64(i))
		worth, slope = worth+w, slope+rise
		w, rise = value(e.nodes[j], e.nodes[j+1], b-float64(j))
		worth, slope = worth+w, slope+rise
	}
	return worth * tenth, slope * tenth
}

// value returns the cubic through two points a step apart at a fraction of the
// step, and its rise over the whole, on average over many years the slope.
func value(a, b point, f float64) (value, rise float64) {
	rise = b.value - a.value
	c := float64(3*rise) - float64(2*a.slope) - b.slope
	d := a.slope + b.slope - float64(2*rise)
	return a.value + float64(f*(a.slope+float64(f*(c+float64(f*d))))), rise
}

const (
	tenth = 1 / float64(2*len(late)) // of the years
	mixed = 0.5                      // steps of a spread from which rises average out to slopes
)

// apart is mean where some of the years lie before weeds come up or after.
func (e *Ending) apart(x, spread float64) (worth, slope float64) {
	for _, z := range &late {
		for _, shifted := range [...]float64{x - float64(z*spread), x + float64(z*spread)} {
			w, d := e.normal(shifted)
			worth, slope = worth+w, slope+d
		}
	}
	return worth * tenth, slope * tenth
}

// normal is mean in the normal year, where that is known.
func (e *Ending) normal(x float64) (worth, slope float64) {
	if x >= e.end {
		return 0, 0
	}
	at := e.place(x)
	i := int(at)
	return cubic(e.nodes[i], e.nodes[i+1], at-float64(i))
}

// lastAbove returns the last moment from one on at which worth is at least the
// floor of a goal, all in steps, by Newton's method between what is known to
// lie above and below.
func (e *Ending) lastAbove(goal *goal, from, spread float64) (x float64, ok bool) {
	const (
		enough = 0.02 // steps: from here the slope leads all the way
		stride = 2.0  // steps, where the slope leads nowhere
	)
	floor := float64(goal.floor * e.total)
	x, ok = e.guess(goal, floor, from, spread)
	if !ok {
		return 0, false
	}
	x = max(x, from)
	lo, hi, found := from, math.Inf(1), false // above floor at lo once found, below it at hi
	for range 100 {
		worth, slope := e.mean(x, spread)
		over := worth - floor
		next := x - min(over/slope, 1+float64(0.5*spread)) // no farther, or it may jump over a summit
		switch {
		case slope < 0 && next >= from && math.Abs(next-x) < enough:
			return next, true
		case over >= 0:
			lo, found = x, true
		case x <= from:
			return 0, false
		default:
			hi = x
		}
		switch {
		case found && hi-lo < 1e-4:
			return lo, true
		case slope < 0 && next > lo && next < hi:
			x = next
		case !found:
			x = max(x-stride, from)
		case math.IsInf(hi, 1):
			x += stride
		default:
			x = (lo + hi) / 2
		}
	}
	return lo, found
}

// guess returns about where worth, times total, is last at a floor; ok is false
// when it comes nowhere near it in the normal year, nor therefore on average.
//
// Worth falls about as a logistic curve does, whose width b follows from the
// slope at the floor, and ten years together as one of width √(b² + k·spread²):
// the variance of their deviates is 0.88, that of the logistic curve π²/3·b².
func (e *Ending) guess(goal *goal, floor, from, spread float64) (x float64, ok bool) {
	const k = 0.88 * 3 / (math.Pi * math.Pi)
	i, ok := e.lastNode(floor, from, spread)
	if !ok {
		return 0, false
	}
	x = float64(i - spare)
	if i < e.begin+spare {
		x += 2
	}
	here, next := e.nodes[i].value, e.nodes[i+1].value
	slope := next - here
	switch {
	case here < floor || slope >= 0:
		return x + 1, true
	case spread == 0:
		return x + (floor-here)/slope, true
	}
	b := float64(goal.floor*(1-goal.floor)) * e.total / -slope
	x += (floor-here)/slope + float64((math.Sqrt(float64(b*b)+float64(k*spread*spread))-b)*goal.odds)
	return e.nearer(x, floor, spread), true
}

// nearer goes from a moment by the slope to about where worth, times total, is
// at a floor, if that is not far. For the ten years it takes three, whose
// deviates have the same moments up to the fifth.
func (e *Ending) nearer(x, floor, spread float64) float64 {
	const (
		z    = 1.4065772946741477  // √(m4/m2) of the moments of late
		side = 0.22234148693372977 // m2²/m4/2, the weight of either
		far  = 3.0                 // steps
	)
	first, last := x-float64(z*spread), x+float64(z*spread)
	if first < e.start || last >= e.end {
		return x
	}
	if to := int(e.place(first)); to < e.known {
		e.reach(to)
	}
	at, away := x+float64(spare), last-x
	i, j, k := int(at), int(at-away), int(at+away)
	worth, slope := cubic(e.nodes[i], e.nodes[i+1], at-float64(i))
	a, b := cubic(e.nodes[j], e.nodes[j+1], at-away-float64(j))
	c, d := cubic(e.nodes[k], e.nodes[k+1], at+away-float64(k))
	worth += float64(side * (a + c - worth - worth))
	slope += float64(side * (b + d - slope - slope))
	if next := x + (floor-worth)/slope; slope < 0 && math.Abs(next-x) < far {
		return next
	}
	return x
}

// lastNode returns the place of the last node at which worth is at least a
// floor in the normal year. When there is none it is that of the greatest worth;
// ok is false when the summit near that cannot come to the floor either.
func (e *Ending) lastNode(floor, from, spread float64) (place int, ok bool) {
	const summit = 0.9 // of a summit is at the nodes about it
	least := int(e.place(from - float64(latest*spread)))
	if least > e.last+spare { // in no year is anything left to stop
		return 0, false
	}
	i := max(min(e.due, e.last)+spare, least)
	e.reach(max(i-int(latest*spread)-1, least))
	for place = i; i >= least; i-- {
		if i == e.begin+spare-1 { // the next is that of begin again, without its weeds
			continue
		}
		if i < e.known {
			e.reach(i)
		}
		if e.nodes[i].value > e.nodes[place].value {
			place = i
		}
		if e.nodes[i].value >= floor {
			return i, true
		}
	}
	return place, e.nodes[place].value > summit*floor
}
