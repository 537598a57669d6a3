package press

import (
	"math"
	"testing"
)

// Clusters share all colours among them, none is empty, and each mean is that
// of its colours by weight, here found by another way.
func TestClusters(t *testing.T) {
	p, _ := mountains(0)
	all, _ := tintsOf([]*Painting{p}, nil)
	for _, c := range []struct{ colors, byMass, most, want int }{
		{len(all), 160, 256, 256}, {len(all), 0, 64, 64}, {len(all), 64, 64, 64}, {20, 10, 64, 20}, {1, 1, 64, 1}, {0, 1, 64, 0}, {20, -3, 1, 1}, {20, 1, 0, 0},
	} {
		clusters := clustersOf(all[:c.colors], c.byMass, c.most)
		if len(clusters) != c.want {
			t.Errorf("%+v: %d clusters", c, len(clusters))
		}
		left := map[rgb]bool{}
		for _, a := range all[:c.colors] {
			left[a.rgb] = true
		}
		for _, k := range clusters {
			for _, a := range k.tints {
				if !left[a.rgb] {
					t.Fatalf("%+v: %06x is in two clusters", c, a.rgb)
				}
				delete(left, a.rgb)
			}
			checkMean(t, k)
		}
		if len(left) > 0 && c.want > 0 {
			t.Errorf("%+v: %d colours are in no cluster", c, len(left))
		}
	}
}

// checkMean compares a cluster's mean with one that is told each colour in turn.
func checkMean(t *testing.T, c cluster) {
	t.Helper()
	for k := range 3 {
		mean, weight := 0.0, 0.0
		for _, a := range c.tints {
			weight += float64(a.weight)
			mean += (float64(a.channel(k)) - mean) * float64(a.weight) / weight
		}
		if len(c.tints) == 0 || math.Abs(float64(c.mean.channel(k))-mean) > 0.5+1e-9 {
			t.Fatalf("%d colours of mean %.2f in channel %d have %d", len(c.tints), mean, k, c.mean.channel(k))
		}
	}
}

// Worked by hand: of a fixed black, a dye for reds and one too far for any,
// the dye moves to the mean by weight, (3×200 + 1×240) / 4 = 210, the fixed one
// stays though it stands for a dark grey too, and the last is dropped.
func TestSettle(t *testing.T) {
	d := newDyes([]rgb{0x000000}, []cluster{{mean: 0xff0000}, {mean: 0x0000ff}, {mean: 0x000000}})
	if len(d.list) != 3 {
		t.Errorf("%d dyes, one of them twice", len(d.list))
	}
	d.settle([]tint{{rgb: 0x000000, weight: 9}, {rgb: 0x0c0c0c, weight: 9}, {rgb: 0xc80000, weight: 3}, {rgb: 0xf00000, weight: 1}})
	if len(d.list) != 2 || d.list[0].rgb != 0 || d.list[1].rgb != 0xd20000 {
		t.Errorf("settled as %+v", d.list)
	}
	r := d.reduction([]tint{{rgb: 0x000000}, {rgb: 0xc80000}, {rgb: 0xf00000}})
	if r.moved != 30 || len(r.palette) != 2 || r.index[0xf00000] != r.index[0xc80000] || r.index[0] == r.index[0xf00000] {
		t.Errorf("%+v", r)
	}
}
