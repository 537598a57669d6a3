package main

import "math"

// Seeds of the separate kinds of chance; the numbers mean nothing.
const (
	coastSeed   noise = 20270
	islandSeed  noise = 31991
	upliftSeed  noise = 47113
	plateauSeed noise = 52021
	detailSeed  noise = 68209
	settleSeed  noise = 83497
	weatherSeed noise = 71711
	soilSeed    noise = 91017
	siteSeed    noise = 91031
	daysSeed    noise = 71722
)

// shore returns about how far inland p lies in plan degrees; negative at sea.
func shore(p plan) float64 {
	q := coastSeed.bend(p, 1.6, 0.55, 5)
	land := math.Inf(-1)
	for _, o := range mainland {
		land = joined(land, o.inside(q), 0.25)
	}
	for _, o := range bays {
		land = min(land, -o.inside(q))
	}
	land = max(land, onIsland(p))
	rim := min(p.x, p.y, squeeze*(frame.East-frame.West)-p.x, frame.North-frame.South-p.y)
	return min(land, 2*rim-0.4)
}

// joined is the larger of two distances, rounded off where they are within
// soft of each other, so that ovals melt together.
func joined(a, b, soft float64) float64 {
	h := max(soft-math.Abs(a-b), 0) / soft
	return max(a, b) + h*h*soft/4
}

// onIsland is positive on the islands.
func onIsland(p plan) float64 {
	q := islandSeed.bend(p, 0.55, 0.38, 5)
	in := math.Inf(-1)
	for _, o := range islands {
		in = max(in, o.inside(q))
	}
	return in
}

// uplift returns how fast the ground at p rises, 1 on the great range.
func uplift(p plan, inland float64) float64 {
	q := upliftSeed.bend(p, 1.2, 0.5, 4)
	crest := upliftSeed.ridged(p, 0.9, 4)
	up := 0.17 + 0.10*upliftSeed.rough(p, 0.7, 3) + 1.7*spine.near(q)*(0.35+0.85*crest) + 0.55*downs.near(q)*(0.35+0.85*crest)
	up *= (1 - 0.45*valley.near(p)) * (1 - 0.75*step(onPlateau(p), -0.1, 0.3))
	up += 0.45 * step(onIsland(p), 0, 0.25)
	up = max(up, 0.25*step(onPlateau(p), 0, 0.2), 0.03)
	return up * step(inland, -0.05, 0.22)
}

// onPlateau is positive on the high plateau.
func onPlateau(p plan) float64 {
	return plateau.inside(plateauSeed.bend(p, 0.8, 0.3, 4))
}

// carve raises and erodes the land until its valleys are grown, first on a
// coarse mesh, then on the fine one, and returns heights in metres; the sea
// stands at 0 and has no depth yet.
func carve(fine int) field {
	h := erode(start(fine/2), ages{steps: 60, years: 30})
	h = h.onto(mesh(fine))
	return erode(h, ages{steps: 12, years: 12})
}

// start returns a low, bumpy land with the plateau already on it.
func start(n int) field {
	h := newField(mesh(n))
	h.fill(func(p plan) float64 {
		if shore(p) <= 0 {
			return 0
		}
		table := plateauHeight + 260*plateauSeed.rough(p, 0.6, 4)
		return mix(20+15*detailSeed.rough(p, 0.3, 4), table, step(onPlateau(p), -0.30, 0.15))
	})
	return h
}

const plateauHeight = 2430 // m
