package main

import "math"

// noise is smooth random relief without direction: gradient noise after
// Perlin 1985 (SIGGRAPH Computer Graphics 19:287), its gradients from a hash
// of the seed.
type noise uint64

// at returns noise of about −1 to 1 that varies over distances of 1.
func (n noise) at(x, y float64) float64 {
	x0, y0 := math.Floor(x), math.Floor(y)
	u, v := x-x0, y-y0
	i, j := int64(x0), int64(y0)
	su, sv := fade(u), fade(v)
	low := mix(n.slope(i, j, u, v), n.slope(i+1, j, u-1, v), su)
	high := mix(n.slope(i, j+1, u, v-1), n.slope(i+1, j+1, u-1, v-1), su)
	return 1.5 * mix(low, high, sv)
}

// slope is the height at (u, v) of the plane that belongs to a lattice point.
func (n noise) slope(i, j int64, u, v float64) float64 {
	h := n.hash(i, j)
	s, c := math.Sincos(float64(h>>40) * (2 * math.Pi / (1 << 24)))
	return c*u + s*v
}

// hash returns the random bits that belong to a lattice point.
func (n noise) hash(i, j int64) uint64 {
	h := uint64(n) + uint64(i)*0x9E3779B97F4A7C15 + uint64(j)*0xC2B2AE3D27D4EB4F
	h ^= h >> 29 // the finalizer of SplitMix64
	h *= 0xBF58476D1CE4E5B9
	h ^= h >> 32
	h *= 0x94D049BB133111EB
	h ^= h >> 29
	return h
}

// rough adds octaves, each twice as fine and half as high, from a coarsest
// size in plan degrees; about −1 to 1.
func (n noise) rough(p plan, size float64, octaves int) float64 {
	sum, high, fine := 0.0, 0.5, 1/size
	for k := range octaves {
		sum += high * (n+noise(k)*977).at(p.x*fine, p.y*fine)
		high, fine = high/2, fine*2
	}
	return sum
}

// ridged is rough noise folded at zero, so that it has crests; 0 to about 1.
func (n noise) ridged(p plan, size float64, octaves int) float64 {
	sum, high, fine := 0.0, 0.5, 1/size
	for k := range octaves {
		sum += high * (1 - math.Abs((n+noise(k)*977).at(p.x*fine, p.y*fine)))
		high, fine = high/2, fine*2
	}
	return sum
}

// bend moves p by up to about far plan degrees, so that shapes drawn with
// ellipses and lines lose their smoothness.
func (n noise) bend(p plan, size, far float64, octaves int) plan {
	return plan{
		x: p.x + far*n.rough(p, size, octaves),
		y: p.y + far*(n+5501).rough(p, size, octaves),
	}
}

func fade(t float64) float64            { return t * t * t * (t*(t*6-15) + 10) }
func mix(a, b, t float64) float64       { return a + (b-a)*t }
func hypot(a, b float64) float64        { return math.Sqrt(a*a + b*b) }
func between(v, lo, hi float64) float64 { return min(max(v, lo), hi) }

// step rises smoothly from 0 at lo to 1 at hi.
func step(v, lo, hi float64) float64 {
	t := between((v-lo)/(hi-lo), 0, 1)
	return t * t * (3 - 2*t)
}
