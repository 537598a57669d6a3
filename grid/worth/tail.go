package worth

import (
	"math"

	"weekband/grid/curve"
	"weekband/grid/units"
)

// lost is what soil of a temperature loses a residual in a step of
// curve.FineStep days, with λ the loss in that step.
type lost struct {
	half float64 // what half a step leaves, e^(−λ/2)
	step float64 // λ
	even float64 // λ/2·coth(λ/2): the trapezoid sum of ∫ λ·e^(−λt) dt = 1
	fall float64 // 1/λ − λ/(4·sinh²(λ/2)): by how much that of ∫ λ·t·e^(−λt) dt = 1/λ is short
}

// lossEntry is a lost and its rise to the next.
type lossEntry struct{ value, rise lost }

// loss is a treatment's table of the loss in soil of a temperature, in the
// places of a decay's.
type loss struct {
	treatment Treatment
	entries   [entries]lossEntry
}

// A loss of most a step leaves nothing that matters; it stands for all faster
// ones, which are short of numbers.
const most = 50

func newLoss(t Treatment) *loss {
	l := &loss{treatment: t}
	for i := range l.entries {
		λ := min(math.Ln2*curve.FineStep/t.HalfLifeAt(lowest+units.Celsius(units.Celsius(i)*tableStep)), most)
		sinh := math.Sinh(λ / 2)
		l.entries[i].value = lost{half: math.Exp(-λ / 2), step: λ, even: λ / 2 * math.Cosh(λ/2) / sinh, fall: 1/λ - λ/(4*sinh*sinh)}
	}
	for i := range entries - 1 {
		a, b := &l.entries[i].value, &l.entries[i+1].value
		l.entries[i].rise = lost{half: b.half - a.half, step: b.step - a.step, even: b.even - a.even, fall: b.fall - a.fall}
	}
	return l
}

// place returns the entry for soil of a temperature in °C, and how far past it
// that is. The first and the last do not rise.
func (l *loss) place(soil float64) (*lossEntry, float64) {
	x := float64((soil - float64(lowest)) * (1 / tableStep))
	i := min(max(int(x), 0), entries-1)
	return &l.entries[i], x - float64(i)
}

// at returns the loss a fraction of the way to the next entry.
func (e *lossEntry) at(f float64) lost {
	return lost{
		half: e.value.half + float64(f*e.rise.half),
		step: e.value.step + float64(f*e.rise.step),
		even: e.value.even + float64(f*e.rise.even),
		fall: e.value.fall + float64(f*e.rise.fall),
	}
}

// tail is how far back from the end worth is worked out.
type tail struct {
	node int     // the next, going back
	sum  float64 // the trapezoid sum of V from the node after it on
	part float64 // its first term
	came int     // the first node of which is known what is still to come
	lost int     // and how fast strength is lost
}

// begun starts at the end of the season, and expects to be asked back to a node.
func (e *Ending) begun(to int) {
	n := e.last
	e.start = float64(e.begin)
	if e.begin == 0 {
		e.start = e.origin
	}
	e.tail = tail{node: n - 1, came: n + 1, lost: n + 3}
	e.coming(min(to, n))
	e.losing(min(to, n) - 1)
	l, here := &e.lost[n+spare], &e.nodes[n+spare]
	s, rate := here.value, here.slope
	w := e.atEnd(s, rate)
	e.tail.sum = float64(s*(l.even-e.rising(n))) + float64(l.fall*rate) - w
	e.tail.part = float64(0.5 * l.step * s)
	*here = point{w, float64(l.step*w) - rate}
	e.nodes[n+spare+1] = e.beyond(*here)
	e.known = n + spare
}

// atEnd returns worth at the last node, where s is still to come and comes up
// at a rate. Where the year cuts the season off S falls to 0 from there to its
// end, for which V has the trapezoid rule with the first term of the
// Euler-Maclaurin formula. Otherwise the little that is left goes on to fall at
// the same rate of what is left.
func (e *Ending) atEnd(s, rate float64) float64 {
	λ := e.lost[e.last+spare].step
	switch {
	case e.cut:
		f := e.end - float64(e.last)
		ends := float64(s*e.rising(e.last)) - float64((1.0/12)*λ*(float64(λ*s)+rate-e.closing/(1+float64(f*λ))))
		return s - float64(f*λ*s/2) - float64(f*f*ends)
	case s > 0:
		return s * rate / (float64(λ*s) + rate)
	}
	return 0
}

// beyond returns what stands for worth at the node after the last: the cubic
// from the last that comes to 0 at the end goes on to there.
func (e *Ending) beyond(last point) point {
	f := e.end - float64(e.last)
	if f == 0 {
		return point{}
	}
	w, rise, fall := last.value, float64(last.slope*f), float64(e.closing*f)
	c := (fall - float64(3*w) - float64(2*rise)) / (f * f)
	d := (float64(2*w) + rise - fall) / (f * f * f)
	return point{w + last.slope + c + d, last.slope + float64(2*c) + float64(3*d)}
}

// coming works out, for the nodes back to one, what is still to come and comes
// up there in a step.
func (e *Ending) coming(to int) {
	if to >= e.tail.came {
		return
	}
	nodes := e.nodes[to+spare : e.tail.came+spare]
	e.tail.came = to
	for k := range nodes {
		d := e.counted(to + k)
		up, f := e.of.place(d.value)
		share, slope := up.at(f)
		nodes[k] = point{e.total - share, float64((1 / upStep) * slope * d.slope)}
	}
}

// losing looks up the losses at the nodes back to one.
func (e *Ending) losing(to int) {
	for node := e.tail.lost - 1; node >= to; node-- {
		i := node + margin
		if i < 0 {
			i += fineYear
		}
		entry, f := e.loss.place(e.soil[i])
		e.lost[node+spare] = entry.at(f)
	}
	e.tail.lost = min(e.tail.lost, to)
}

// left returns the share of strength that the step from a node leaves, λ being
// the cubic through the four nodes about it.
func (e *Ending) left(node int) float64 {
	l := (*[4]lost)(e.lost[node+spare-1:])
	return float64(l[1].half*l[2].half) * (1 + float64((1.0/24)*(l[0].step-l[1].step-l[2].step+l[3].step)))
}

// rising returns a twelfth of how λ rises in a step at a node, with which it
// enters the formula.
func (e *Ending) rising(node int) float64 {
	return float64((1.0 / 24) * (e.lost[node+spare+1].step - e.lost[node+spare-1].step))
}

// growing works out worth at the nodes back to one, not before begin.
func (e *Ending) growing(to int) {
	if to > e.tail.node {
		return
	}
	e.coming(to)
	e.losing(to - 1)
	sum, part := e.tail.sum, e.tail.part
	for j := e.tail.node; j >= to; j-- {
		l, n := &e.lost[j+spare], &e.nodes[j+spare]
		next := float64(0.5 * l.step * n.value)
		sum = float64(e.left(j)*(sum+part)) + next
		part = next
		w := float64(n.value*(l.even-e.rising(j))) + float64(l.fall*n.slope) - sum
		*n = point{w, float64(l.step*w) - n.slope}
	}
	e.tail.node, e.tail.sum, e.tail.part = to-1, sum, part
	e.known = to + spare
}

// startWaiting works out worth as it were at the nodes about the start of weeds
// without those that come up from there on.
func (e *Ending) startWaiting() {
	e.known = e.begin + spare - 2
	here := &e.nodes[e.known]
	*here = e.nodes[e.begin+spare]
	λ, next := e.lost[e.begin+spare].step, e.lost[e.begin+spare+1].step
	if f := e.start - float64(e.begin); f > 0 {
		w, _ := cubic(e.nodes[spare], e.nodes[spare+1], f)
		mid := λ + float64(f*(next-λ))
		here.value = w * math.Exp(float64(-f*(λ+mid)/2))
		w *= math.Exp(float64((1 - f) * (mid + next) / 2))
		e.nodes[e.known+1] = point{w, float64(next * w)}
	}
	here.slope = float64(λ * here.value)
}

// waiting works out worth at the nodes back to a place, before weeds come up.
// There it falls backward with the strength alone.
func (e *Ending) waiting(to int) {
	e.losing(to - spare + 1)
	for e.known > to {
		w := float64(e.left(e.known+1-spare) * e.nodes[e.known].value)
		e.known--
		e.nodes[e.known] = point{w, float64(e.lost[e.known+2].step * w)}
	}
}

// reach works out the nodes back to a place.
func (e *Ending) reach(to int) {
	if first := e.begin + spare; e.known >= first {
		e.growing(max(to-spare, e.begin))
		if to >= first {
			return
		}
		e.startWaiting()
	}
	e.waiting(max(to, 0))
}

// place returns where a moment lies among the nodes. Node j has place j+spare;
// those about moments before the start are two lower, since there worth has a
// corner.
func (e *Ending) place(x float64) float64 {
	if x < e.start {
		return max(x+float64(spare-2), 0)
	}
	return x + float64(spare)
}
