package main

import (
	"math"

	"weekband/grid"
)

// After the rivers have cut their valleys the sea rises over the lowest of
// them, which gives bays, river mouths and rocks off the shore.
const (
	drowned    = 46.0 // m the sea rises
	smallestKm = 70.0 // km²; smaller islands sink
	funnelKm   = 95.0 // length of the great river's tidal reach
	funnelWide = 15.0 // km, half the width of the estuary at its mouth
)

// land is the finished surface: heights in m, negative under the sea, and
// where its water goes. The zero line of height is the coast.
type land struct {
	height field
	rivers drainage
	stem   []int // the great river, mouth first
}

func (l *land) isSea(i int) bool { return l.height.v[i] <= 0 }

// element is 0 for nodes of the sea and 1 for nodes of the land.
func (l *land) element(i int) int {
	if l.isSea(i) {
		return 0
	}
	return 1
}

// form makes the whole surface.
func form() *land {
	h := carve(fineness)
	for i := range h.v {
		p := planOf(center(h.g, i))
		if in := shore(p); in <= 0 {
			h.v[i] = 600 * in
		} else {
			h.v[i] *= 1 + 0.10*detailSeed.rough(p, 0.15, 3)
		}
		h.v[i] -= drowned
	}
	l := &land{height: h}
	l.settle()
	river := l.rivers.stem(h.g)
	l.openEstuary(river)
	l.height = soften(l.height)
	l.settle()
	l.stem = l.rivers.stem(h.g)
	return l
}

// settle removes lakes and rocks and routes the water anew.
func (l *land) settle() {
	l.removeSpecks()
	l.rivers = drain(l.height, l.isSea)
}

// soften rounds the relief near sea level so that the coast is no finer than
// the mesh can draw.
func soften(h field) field {
	mean := h.blur(1)
	for i, v := range h.v {
		h.v[i] = mix(mean.v[i], v, step(math.Abs(v), 30, 150))
	}
	return h
}

// openEstuary drowns the lowest reach of the river in a funnel that narrows
// upstream.
func (l *land) openEstuary(river []int) {
	h := l.height
	for k, i := range river {
		along := 2.0 * float64(k) // km; about the length of a step
		if along > funnelKm {
			break
		}
		wide := 1 + (funnelWide-1)*math.Pow(1-along/funnelKm, 1.6)
		l.within(i, wide, func(j int, km float64) {
			h.v[j] = min(h.v[j], -12+30*step(km/wide, 0.5, 1.2))
		})
	}
}

// within visits the nodes at most 1.2 times km away from node i.
func (l *land) within(i int, km float64, visit func(j int, km float64)) {
	g := l.height.g
	east, south := kmSteps(g)
	row, col := i/g.Cols(), i%g.Cols()
	reach := int(1.2*km/east) + 1
	for r := max(row-reach, 0); r <= min(row+reach, g.Rows()-1); r++ {
		for c := max(col-reach, 0); c <= min(col+reach, g.Cols()-1); c++ {
			d := hypot(float64(r-row)*south, float64(c-col)*east)
			if d <= 1.2*km {
				visit(r*g.Cols()+c, d)
			}
		}
	}
}

// removeSpecks lifts water that has no way to the open sea just above it and
// sinks islands too small to live on.
func (l *land) removeSpecks() {
	east, south := kmSteps(l.height.g)
	for _, p := range patches(l.height.g, l.element) {
		sea := l.isSea(p[0])
		if sea && !touchesRim(l.height.g, p) {
			for _, i := range p {
				l.height.v[i] = 1
			}
		}
		if !sea && float64(len(p))*east*south < smallestKm {
			for _, i := range p {
				l.height.v[i] = -4
			}
		}
	}
}

func touchesRim(g grid.Grid, patch []int) bool {
	for _, i := range patch {
		if onRim(g, i) {
			return true
		}
	}
	return false
}
