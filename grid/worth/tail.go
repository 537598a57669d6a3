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
	lost int     // the first node whose loss is known
}

// begun starts at the end of the season.
//
// Where the year cuts it off S falls to 0 within the step after the last node;
// the cubic of that step goes on to the next. Otherwise the little that is
// still to come at the last node falls on as it does there.
func (e *Ending) begun() {
	n := e.last
	e.start = float64(e.begin)
	if e.begin == 0 {
		e.start = e.origin
	}
	e.tail = tail{node: n, lost: n + 3}
	e.coming(n)
	e.losing(n - 1)
	l, here := &e.lost[n+spare], &e.nodes[n+spare]
	s, rate, λ := here.value, here.slope, l.step
	w := 0.0
	switch f := e.end - float64(n); {
	case e.cut:
		bend := float64(s*e.rising(n)) - float64((1.0/12)*λ*(float64(λ*s)+rate-e.closing/(1+float64(f*λ))))
		w = s - float64(f*λ*s/2) - float64(f*f*bend)
	case s > 0:
		w = s * rate / (float64(λ*s) + rate)
	}
	e.tail.sum = float64(s*(l.even-e.rising(n))) + float64(l.fall*rate) - w
	e.tail.part = float64(0.5 * λ * s)
	e.tail.node--
	e.known = n + spare
	*here = point{w, float64(λ*w) - rate}
	e.nodes[n+spare+1] = point{}
	if f := e.end - float64(n); f > 0 {
		c := (float64(e.closing*f) - float64(3*w) - float64(2*here.slope*f)) / f / f
		d := (float64(2*w) + float64(here.slope*f) - float64(e.closing*f)) / f / f / f
		e.nodes[n+spare+1] = point{w + here.slope + c + d, here.slope + float64(2*c) + float64(3*d)}
	}
}

// coming works out, for the nodes back to one, what is still to come and comes
// up there in a step.
func (e *Ending) coming(to int) {
	nodes := e.nodes[to+spare : e.tail.node+spare+1]
	for k := range nodes {
		d := e.counted(to + k)
		up, f := e.of.place(d.value)
		share, slope := up.at(f)
		nodes[k] = point{e.total - share, float64((1 / upStep) * slope * d.slope)}
	}
}

// losing looks up the losses at the nodes back to one.
func (e *Ending) losing(to int) {
	t := &e.tail
	for t.lost > to {
		from := max(to, -margin)
		if t.lost <= -margin {
			from = to
		}
		soil := e.soil[(from+margin+fineYear)%fineYear:]
		lost := e.lost[from+spare : t.lost+spare]
		for k := range lost {
			entry, f := e.loss.place(soil[k])
			lost[k] = entry.at(f)
		}
		t.lost = from
	}
}

// left returns the share of strength that the step from a node leaves, λ being
// the cubic through the four nodes about it.
func (e *Ending) left(node int) float64 {
	l := (*[4]lost)(e.lost[node+spare-1:])
	return float64(l[1].half*l[2].half) * (1 + float64((1.0/24)*(l[0].step-l[1].step-l[2].step+l[3].step)))
}

// rising returns how λ rises in a step at a node, a 24th of twice that.
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
	e.losing(to + 2 - spare - 1)
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
