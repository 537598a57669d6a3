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
	if first < e.start || last >= e.end {
		return e.apart(x, spread)
	}
	at := x + float64(spare)
	for _, z := range &late {
		away := float64(z * spread)
		a, b := at-away, at+away
		i, j := int(a), int(b)
		w, d := cubic(e.nodes[i], e.nodes[i+1], a-float64(i))
		worth, slope = worth+w, slope+d
		w, d = cubic(e.nodes[j], e.nodes[j+1], b-float64(j))
		worth, slope = worth+w, slope+d
	}
	return worth * tenth, slope * tenth
}

const tenth = 1 / float64(2*len(late)) // of the years

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
		enough = 0.04 // steps: from here the slope leads all the way
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
		next := x - over/slope
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
	x = float64(i - spare)
	if i < e.begin+spare {
		x += 2
	}
	here, next := e.nodes[i].value, e.nodes[i+1].value
	slope := next - here
	switch {
	case here < floor || slope >= 0:
		return x + 1, ok
	case spread == 0:
		return x + (floor-here)/slope, ok
	}
	b := float64(goal.floor*(1-goal.floor)) * e.total / -slope
	return x + (floor-here)/slope + float64((math.Sqrt(float64(b*b)+float64(k*spread*spread))-b)*goal.odds), ok
}

// lastNode returns the place of the last node at which worth is at least a
// floor in the normal year. When there is none it is that of the greatest worth;
// ok is false when the summit near that cannot come to the floor either.
func (e *Ending) lastNode(floor, from, spread float64) (place int, ok bool) {
	const summit = 0.9 // of a summit is at the nodes about it
	least := int(e.place(from - float64(latest*spread)))
	i := min(e.due, e.last) + spare
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
