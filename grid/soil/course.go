package soil

import (
	"math"
	"math/bits"

	"weekband/grid/curve"
	"weekband/grid/season"
)

// Response is how the soil of a Model answers air that is given as a curve,
// without its offset: what Apply works out day by day, in closed form. It does
// not change and may be used by several goroutines.
type Response struct {
	tau     float64 // days of lag
	shelter float64 // share of the air below 0 °C that soil does not feel
	gain    [curve.Order]struct{ held, late float64 }
}

// Response returns the response of the model, of which the offset is left out.
func (m Model) Response() *Response {
	r := &Response{tau: m.Lag, shelter: 1 - m.Frozen}
	for k := range r.gain {
		// A first-order lag divides the wave e^(iωt) by 1 + iωτ.
		q := float64(k+1) * perDay * m.Lag
		r.gain[k].held, r.gain[k].late = 1/(1+float64(q*q)), q/(1+float64(q*q))
	}
	return r
}

// Same reports whether soil with the given offset is air.
func (r *Response) Same(offset *Offset) bool {
	return r.tau == 0 && r.shelter == 0 && *offset == Offset{}
}

// Course is a typical year of soil in closed form. With air the curve of air,
// P the same curve lagged, and soil as it would be if nothing froze P + offset,
//
//	soil(t) = P(t) + offset(t) + D(t)
//
// where D is the warmth that frozen ground keeps: air below 0 °C counts by the
// share Frozen only, and the rest of it, lagged, is D. While air is below 0 °C,
// from the moment f on, it is the lag's answer to a curve from any beginning,
//
//	D(t) = −(1 − Frozen)·(P(t) + start·e^(−(t−f)/τ))
//
// and it fades as e^(−t/τ) from every thaw.
type Course struct {
	Bare curve.Curve // P + offset

	of     *Response
	offset Offset
	bulge  float64            // K; see Bulge
	kinks  uint32             // see Kinks
	frosts [curve.Order]frost // a curve of that order has no more
	count  int
	always bool // air is below 0 °C all year
}

// frost is a time of air below 0 °C, in days since 1 January 0:00.
type frost struct {
	from   float64 // in [0, 365)
	length float64
	until  float64 // the next one, from the begin of this
	start  float64 // °C
	thaw   float64 // D at the end, K
}

// Course works out the course of soil under air, given as a curve and its
// Sketch, at a place with the given offset.
func (r *Response) Course(air *curve.Curve, sketch *curve.Sketch, offset *Offset, c *Course) {
	c.of, c.offset, c.count, c.always = r, *offset, 0, false
	b := &c.Bare
	b.Mean = air.Mean
	for k := range r.gain {
		g := &r.gain[k]
		b.Cos[k] = float64(air.Cos[k]*g.held) - float64(air.Sin[k]*g.late)
		b.Sin[k] = float64(air.Sin[k]*g.held) + float64(air.Cos[k]*g.late)
	}
	c.bulge, c.kinks = 0, 0
	if r.shelter != 0 {
		c.freeze(air, sketch)
	}
	b.Mean += offset.Mean
	b.Cos[0] += offset.Cos1
	b.Sin[0] += offset.Sin1
	b.Cos[1] += offset.Cos2
	b.Sin[1] += offset.Sin2
	c.bulge += b.Bulge()
}

// freeze finds the frosts. Bare is P yet.
func (c *Course) freeze(air *curve.Curve, sketch *curve.Sketch) {
	var zeros [2 * curve.Order]float64
	bulge := air.Bulge()
	n := air.Zeros(sketch, bulge, &zeros)
	c.count, c.always = n/2, n == 0 && sketch[0] < 0
	if c.freezes() {
		c.bulge = float64(c.of.shelter * bulge)
	}
	first := 0 // the first frost begins at a freeze, where air was above 0 °C at the start of the year
	if sketch[0] < 0 {
		first = 1
	}
	for i := range c.count {
		from, to := zeros[first+2*i], zeros[(first+2*i+1)%n]
		if to < from {
			to += season.YearDays
		}
		c.frosts[i].from, c.frosts[i].length = from, to-from
	}
	for i := range c.count {
		f, next := &c.frosts[i], c.frosts[0].from+season.YearDays
		if i+1 < c.count {
			next = c.frosts[i+1].from
		}
		f.until = next - f.from
	}
	c.kinks = c.kinked()
	// What is left at the first freeze of the frosts before follows from a
	// year that begins with nothing left.
	if left := c.pass(0); left > 1e-9 {
		c.pass(left / (1 - fade(season.YearDays/c.of.tau)))
	}
}

// pass works out the frosts of a year from D at the first freeze and returns D
// a year later.
func (c *Course) pass(d float64) float64 {
	r := c.of
	for i := range c.count {
		f := &c.frosts[i]
		f.start = -d/r.shelter - c.Bare.About(f.from)
		end := f.from + f.length
		f.thaw = -r.shelter * (c.Bare.About(end) + float64(f.start*r.fade(f.length)))
		d = f.thaw * r.fade(f.until-f.length)
	}
	return d
}

// freezes reports whether air is ever below 0 °C.
func (c *Course) freezes() bool { return c.always || c.count > 0 }

// On returns soil at 0:00 of a day of the year, 0 for 1 January to 364.
func (c *Course) On(day int) float64 {
	bare := c.Bare.On(day)
	if !c.freezes() {
		return bare
	}
	return bare + c.kept(day, bare)
}

// Sample writes the course at 0:00 of every day into year.
func (c *Course) Sample(year *curve.Year) {
	c.Bare.Sample(year)
	if !c.freezes() {
		return
	}
	for day := range year {
		year[day] += c.kept(day, year[day])
	}
}

// kept returns D at 0:00 of a day of the year, on which Bare is known.
func (c *Course) kept(day int, bare float64) float64 {
	if c.always {
		return -c.of.shelter * (bare - c.offset.On(day))
	}
	t := float64(day)
	i := c.count - 1
	for i > 0 && c.frosts[i].from > t {
		i--
	}
	f := &c.frosts[i]
	if f.from > t { // of the year before
		f = &c.frosts[c.count-1]
		t += season.YearDays
	}
	since := t - f.from - f.length
	if since < 0 {
		return -c.of.shelter * (bare - c.offset.On(day) + float64(f.start*c.of.fade(t-f.from)))
	}
	return f.thaw * c.of.fade(since)
}

// Bulge returns how far the course may lie above or below the values at both
// ends of a step of its Sketch, in K; around Kinks further below.
//
// What air below 0 °C is felt less bends by no more than air itself, but for
// the moments of freeze and thaw, at which it bends upward sharply; the lag is a
// mean over the days before.
func (c *Course) Bulge() float64 { return c.bulge }

// Kinks returns the moments of the Sketch, as bits, in the steps around which
// ground freezes or thaws, and some lags later.
func (c *Course) Kinks() uint32 { return c.kinks }

func (c *Course) kinked() (moments uint32) {
	for i := range c.count {
		f := &c.frosts[i]
		first := int(f.from / curve.SketchStep)
		steps := int((f.length+float64(8*c.of.tau))/curve.SketchStep) + 2
		if steps >= len(curve.Sketch{}) {
			return math.MaxUint32
		}
		moments |= bits.RotateLeft32(1<<(steps+1)-1, first)
	}
	return moments
}
