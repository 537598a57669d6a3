package main

import "math"

// Stream power law, dh/dt = U − K·A^m·S with drainage area A in km² and
// slope S in m/km. The exponent m is common in the literature (0.4 to 0.5);
// K and U are chosen for handsome mountains, time has no true unit.
const (
	areaPower   = 0.45
	erodibility = 0.011
	riseRate    = 1.6 // m per unit of time on the crest of the range
)

// ages is how long a land is worn down.
type ages struct {
	steps int
	years float64 // per step
}

// erode wears h down under steady uplift and returns it. Each step is the
// implicit scheme of Braun and Willett 2013 (Geomorphology 180–181:170):
// nodes are solved from the sea upstream, so any step is stable.
func erode(h field, a ages) field {
	rise, soft := newField(h.g), newField(h.g)
	inland := newField(h.g)
	inland.fill(shore)
	for i := range h.v {
		p := planOf(center(h.g, i))
		rise.v[i] = riseRate * uplift(p, inland.v[i])
		soft.v[i] = erodibility * mix(1, 0.10, step(onPlateau(p), -0.02, 0.15)) * math.Exp(0.5*detailSeed.rough(p, 0.5, 3))
	}
	for range a.steps {
		d := drain(h, func(i int) bool { return inland.v[i] <= 0 })
		for _, i := range d.order {
			to := d.to[i]
			if to == i {
				h.v[i] = 0
				continue
			}
			f := a.years * soft.v[i] * math.Pow(d.area[i], areaPower) / d.km[i]
			h.v[i] = (h.v[i] + a.years*rise.v[i] + f*h.v[to]) / (1 + f)
		}
		h = creep(h, inland)
	}
	return h
}

// creep moves soil from each node towards the mean of its neighbours, as
// slow slides and frost do, and keeps the sea at 0.
func creep(h, inland field) field {
	mean := h.blur(1)
	for i := range h.v {
		if inland.v[i] > 0 {
			h.v[i] += 0.02 * (mean.v[i] - h.v[i])
		}
	}
	return h
}
