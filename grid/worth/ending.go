package worth

import (
	"math"

	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/season"
)

// Ending finds when the worth of a season falls below a floor for the last
// time, from soil at the moments of a curve.Fine: what Season.LastAbove finds
// from every day's, in little more than half the time. Maps ask no more of a cell.
//
// It counts time in steps of curve.FineStep days from the last such moment
// that does not lie after the season's origin, its node 0. With S the share of
// weeds that is still to come and λ the loss per step, worth in the normal
// year is
//
//	W(t) = S(t) − V(t),  V(t) = ∫ λ(u)·remaining(t, u)·S(u) du  over u > t
//
// since S less V is the integral over what comes up, by parts. V is small and
// smoother than S, so that a trapezoid sum over the nodes is near it. What the
// sum is off is known in closed form where λ stays and S falls evenly, however
// fast strength is lost; how λ changes adds the first term of the
// Euler-Maclaurin formula. Between nodes W is the cubic that has its values and
// its slopes, which are W' = λ·W − e with e the emergence a step.
//
// An Ending is made to be used again; goroutines must not share one. The zero
// value is ready.
type Ending struct {
	soil   [margin + fineYear + 3]float64 // °C at node -margin and after
	zero   int                            // the element of the year that is node 0
	origin float64                        // in steps from node 0, in [0, 1)
	of     *Emergence
	goals  [2]goal // by direction
	loss   *loss
	met    memory[loss]

	past             [margin + fineYear + 3]float64 // K past the base, at the nodes of soil
	sums             [margin + fineYear + 3]float64 // of past before them
	before           float64                        // degree-days that are counted before the origin
	begin, due, last int                            // weeds come up from node begin on; node last is the last before the end
	total, end       float64                        // share that is up at the end, a moment in steps from node 0
	cut              bool                           // whether the year ends before the season does
	closing          float64                        // emergence per step then

	lost  [spare + fineYear + 3]lost // at the nodes
	tail  tail
	start float64                     // in steps; before it no weeds come up
	known int                         // the place of the first of nodes that is worked out
	nodes [spare + fineYear + 2]point // times total; see place
}

const (
	fineYear = len(curve.Fine{})
	margin   = 1            // nodes before node 0 whose soil is at hand
	spare    = fineYear + 1 // places before that of node 0
)

// goal is a floor and what follows from it.
type goal struct {
	floor float64
	odds  float64 // logarithm of those against a share of floor
	due   float64 // degree-days at which the share is still to come
	over  float64 // degree-days at which the season counts as over
}

// LastAbove returns the last moment, in days from the origin, at which worth
// is at least floor, searching from the given moment on; ok is false when it is
// below floor from there on. origin is a whole day; from lies in [0, 365), and
// spread, in days, is at most 200.
//
// It is Season.LastAbove of a season filled with the same soil. Where they are
// more than 0.02 days apart worth hardly falls: it is within 3e-4 of floor at
// what LastAbove returns, within 5e-4 for half-lives under ten days and within
// 2e-3 under five. That holds where at least a fiftieth of the weeds come up
// before the year ends.
func (e *Ending) LastAbove(soil *curve.Fine, trigger crossing.Trigger, origin season.Day, treatment Treatment, spread, floor, from float64) (days float64, ok bool) {
	e.of = For(trigger.Direction)
	if e.loss == nil || e.loss.treatment != treatment {
		e.loss = e.met.of(treatment, newLoss)
	}
	at := float64(origin-1) / curve.FineStep
	e.zero = int(at)
	e.origin = at - float64(e.zero)
	n := copy(e.soil[:], soil[(e.zero+fineYear-margin)%fineYear:])
	for n < len(e.soil) {
		n += copy(e.soil[n:], soil[:])
	}
	goal := &e.goals[trigger.Direction]
	if goal.floor != floor && floor > 0 {
		*goal = e.of.goal(floor)
	}
	e.emerge(trigger.Direction.Sign(), goal)
	switch {
	case e.total <= 0:
		return 0, false
	case floor <= 0: // worth is never below it
		return max(from, season.YearDays), true
	}
	e.begun(max(e.due-int(latest/curve.FineStep*spread)-1, e.begin))
	x, ok := e.lastAbove(goal, e.origin+from/curve.FineStep, spread/curve.FineStep)
	return float64((x - e.origin) * curve.FineStep), ok
}

// The end of a season is where the weeds that are still to come are tiny of a
// floor, but no more than tailEnd steps before all count as up.
const (
	tiny    = 0.005
	tailEnd = 6
)

// goal returns the goal of a floor above 0.
func (e *Emergence) goal(floor float64) goal {
	none := math.Exp(-e.A)
	at := func(share float64) float64 { return -math.Log(-math.Log(none+float64(share*(1-none)))/e.A) / e.B }
	return goal{floor, math.Log((1 - floor) / floor), at(1 - floor), at(min(1-float64(tiny*floor), full))}
}

// emerge works out how far soil is past the base at the nodes of a season, and
// where it begins and ends.
func (e *Ending) emerge(sign float64, goal *goal) {
	past := e.of.past.of(sign, e.of.Base)
	soil := &e.soil
	first := margin
	for first < fineYear+margin && past.none(soil[first]) && past.none(soil[first+1]) {
		first++
	}
	for i := first - 1; i < first+2; i++ {
		e.past[i] = past.at(soil[i])
	}
	e.sums[first] = 0
	i := e.count(&past, first, e.of.few/2)
	e.begin = max(i-1, first) - margin
	i = e.count(&past, i, goal.due)
	e.due = i - margin
	i = e.count(&past, i, goal.over)
	e.last = i - margin
	i = e.count(&past, i, float64(len(e.of.table))*step)
	e.before = 0
	if first == margin {
		e.before, _ = cubic(e.counted(0), e.counted(1), e.origin)
	}
	e.cut = i == fineYear+margin
	if e.cut {
		e.cutOff(&past)
		return
	}
	e.last = max(e.last, i-margin-tailEnd)
	e.end, e.total = float64(e.last), 1
}

// count adds up past from an element on, until the first before which it has
// come to so many degree-days, or the last of the year.
func (e *Ending) count(past *excessOf, i int, degreeDays float64) int {
	most, sum := degreeDays/curve.FineStep, e.sums[i]
	for ; i < fineYear+margin && sum < most; i++ {
		sum += e.past[i]
		e.sums[i+1] = sum
		e.past[i+2] = past.at(e.soil[i+2])
	}
	return i
}

// cutOff ends the season with the year.
func (e *Ending) cutOff(past *excessOf) {
	const n = fineYear
	e.past[n+margin+2] = past.at(e.soil[n+margin+2])
	e.sums[n+margin+1] = e.sums[n+margin] + e.past[n+margin]
	d, rate := cubic(e.counted(n), e.counted(n+1), e.origin)
	up, f := e.of.place(d)
	share, slope := up.at(f)
	e.last, e.end = n, float64(n)+e.origin
	e.total, e.closing = share, float64(slope*rate)*(1/upStep)
	if d < e.of.few/2 {
		e.total = 0
	}
}

// counted returns the degree-days until a node from begin on. Between nodes
// past is a cubic, the integral of which over a step is (−1, 13, 13, −1)/24 of
// the four nodes about it; over many steps that comes to the trapezoid sum and a
// bit at its ends.
func (e *Ending) counted(node int) point {
	i := node + margin
	here := e.past[i]
	return point{float64(curve.FineStep*(e.sums[i]+float64(0.5*here)+float64((e.past[i-1]-e.past[i+1])*(1.0/24)))) - e.before, float64(curve.FineStep * here)}
}

// point is a value at a node and its slope per step.
type point struct{ value, slope float64 }

// cubic returns the cubic through two points a step apart at a fraction of the
// step, and its slope.
func cubic(a, b point, f float64) (value, slope float64) {
	rise := b.value - a.value
	c := float64(3*rise) - float64(2*a.slope) - b.slope
	d := a.slope + b.slope - float64(2*rise)
	return a.value + float64(f*(a.slope+float64(f*(c+float64(f*d))))), a.slope + float64(f*(2*c+float64(f*(3*d))))
}
