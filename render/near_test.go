package render_test

import (
	"bytes"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"weekband/render"
	"weekband/render/canvas"
	"weekband/render/plane"
)

// ringsOf reads path data as Path.SVG writes it: places in pixels of each ring.
func ringsOf(t *testing.T, d string) [][][2]float64 {
	t.Helper()
	var out [][][2]float64
	var at [2]float64
	for part := range strings.SplitSeq(strings.ReplaceAll(strings.ReplaceAll(d, "-", " -"), "z", ""), "m") {
		fields := strings.Fields(part)
		if len(fields)%2 != 0 {
			t.Fatalf("odd numbers in %q", part)
		}
		var ring [][2]float64
		for i := 0; i < len(fields); i += 2 {
			for k := range at {
				v, err := strconv.ParseFloat(fields[i+k], 64)
				if err != nil {
					t.Fatalf("%q: %v", part, err)
				}
				at[k] = math.Round((at[k]+v)*10) / 10
			}
			ring = append(ring, at)
		}
		if ring != nil {
			out = append(out, ring)
			at = ring[0]
		}
	}
	return out
}

func shoelace(rings [][][2]float64) float64 {
	sum := 0.0
	for _, ring := range rings {
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			sum += (a[0]*b[1] - b[0]*a[1]) / 2
		}
	}
	return math.Abs(sum)
}

// On an island cut into regions, the views of each have every edge inside the
// frame either twice, once each way, or on the coast: no gap, no overlap.
func TestNearKeepsBordersShared(t *testing.T) {
	terr := merrow.territory()
	terr.Regions = terr.Regions[:12]
	l := must(must(render.NewAtlas(terr, 900)).NewLocators(terr.Regions, 300))
	for i := range terr.Regions {
		edges := map[[2][2]float64]int{}
		for _, r := range l.Near(i).Regions {
			for _, ring := range ringsOf(t, r.Path) {
				for k, a := range ring {
					edges[[2][2]float64{a, ring[(k+1)%len(ring)]}]++
				}
			}
		}
		shared := 0
		for e, n := range edges {
			if n > 1 {
				t.Fatalf("view %d: edge %v is run along %d times the same way", i, e, n)
			}
			shared += edges[[2][2]float64{e[1], e[0]}]
		}
		if shared < 20 {
			t.Errorf("view %d: %d of %d edges are shared", i, shared, len(edges))
		}
	}
}

// checkLabels looks at the names of a view: in it, apart, the own one there.
func checkLabels(t *testing.T, own int, n render.Near) {
	t.Helper()
	var boxes []plane.Rect
	for k, label := range n.Labels {
		face := canvas.Regular
		if label.Own {
			face = canvas.Bold
		}
		var b plane.Rect
		for i, line := range label.Lines {
			w := 1.1 * canvas.Font{Face: face, Size: label.Size}.Width(line) // the room other typefaces get
			y := label.Y + float64(i)*label.Leading
			r := plane.Rect{Left: label.X - w/2, Right: label.X + w/2, Top: y - 0.75*label.Size, Bottom: y + 0.2*label.Size}
			if i == 0 {
				b = r
			}
			b = plane.Rect{Left: min(b.Left, r.Left), Right: max(b.Right, r.Right), Top: b.Top, Bottom: r.Bottom}
		}
		if !b.Within(plane.Rect{Right: render.NearWidth, Bottom: render.NearHeight}) {
			t.Errorf("view %d: %q at %v leaves the frame", own, label.Lines, b)
		}
		for m, o := range boxes {
			if o.Overlaps(b) {
				t.Errorf("view %d: %q covers %q", own, label.Lines, n.Labels[m].Lines)
			}
		}
		if label.Own != (k == 0) || label.Own != (label.Region == own) {
			t.Errorf("view %d: label %d is %+v", own, k, label)
		}
		boxes = append(boxes, b)
	}
	if len(n.Labels) == 0 {
		t.Errorf("view %d has no name", own)
	}
}

func TestNearLabels(t *testing.T) {
	for name, s := range map[string]island{"wide": merrow, "tall": skerry} {
		t.Run(name, func(t *testing.T) {
			terr := s.territory()
			terr.Regions[4].Name = "The Most Honourable Hundred of Great and Little Snoring under Wychwood and Overleigh by the Water"
			l := must(must(render.NewAtlas(terr, 900)).NewLocators(terr.Regions, 300))
			for i := range terr.Regions {
				n := l.Near(i)
				checkLabels(t, i, n)
				if last := n.Regions[len(n.Regions)-1]; last.Region != i || shoelace(ringsOf(t, last.Path)) < 500 {
					t.Errorf("view %d ends with region %d of %.0f px²", i, last.Region, shoelace(ringsOf(t, last.Path)))
				}
			}
		})
	}
}

// The margin is a third of the extent, or more on the sides where the frame is
// wider than the region.
func TestNearMargin(t *testing.T) {
	terr := merrow.territory()
	l := must(must(render.NewAtlas(terr, 900)).NewLocators(terr.Regions, 300))
	n := l.Near(5)
	var low, high [2]float64
	for k, p := range ringsOf(t, n.Regions[len(n.Regions)-1].Path)[0] {
		for x := range p {
			if k == 0 {
				low[x], high[x] = p[x], p[x]
			}
			low[x], high[x] = min(low[x], p[x]), max(high[x], p[x])
		}
	}
	across, down := low[0]/(high[0]-low[0]), low[1]/(high[1]-low[1])
	if math.Abs(min(across, down)-0.35) > 0.01 {
		t.Errorf("margins of %.3f and %.3f of the extent, want the lesser to be 0.35", across, down)
	}
}

// Two sets of small maps are alike to the byte, whoever asks for them in which
// order.
func TestLocatorsAreReproducible(t *testing.T) {
	terr := merrow.spread()
	made := func() *render.Locators {
		return must(must(render.NewAtlas(terr, 900)).NewLocators(terr.Regions, 300))
	}
	one, other := made(), made()
	want := make([][]byte, len(terr.Regions))
	for i := range terr.Regions {
		want[i] = append(jsonOf(t, one.Near(i)), jsonOf(t, one.Overview(i))...)
	}
	var all sync.WaitGroup
	got := make([][]byte, len(terr.Regions))
	for i := range slices.Backward(terr.Regions) {
		all.Go(func() { got[i] = append(jsonOf(t, other.Near(i)), jsonOf(t, other.Overview(i))...) })
	}
	all.Wait()
	if !bytes.Equal(one.LandSVG(), other.LandSVG()) {
		t.Error("the land differs")
	}
	for i := range want {
		if !bytes.Equal(want[i], got[i]) {
			t.Errorf("%s differs", terr.Regions[i].Name)
		}
	}
}
