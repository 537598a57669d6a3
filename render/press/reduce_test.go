package press

import (
	"fmt"
	"image"
	"image/color"
	"math/rand/v2"
	"testing"

	"weekband/render/looks"
)

// over lays a share of one colour over another.
func (c rgb) over(ground rgb, share float64) rgb {
	var out rgb
	for k := range 3 {
		v := share*float64(c.channel(k)) + (1-share)*float64(ground.channel(k))
		out = out<<8 | rgb(v+0.5)
	}
	return out
}

// counted is a painting of nothing but colours and how many pixels have them.
func counted(counts map[rgb]int) *Painting {
	p := &Painting{}
	for c, n := range counts {
		p.colors, p.counts = append(p.colors, c), append(p.counts, n)
		p.size.X += n
	}
	p.size.Y = 1
	return p
}

// mountains are the colours of a map of mountains with a thousand small
// regions: sixteen tones in all shades of slopes, and on each rims of lines
// and of letters, some where two lines cross. The tones are returned too.
func mountains(seed uint64) (*Painting, map[rgb]bool) {
	draw := rand.New(rand.NewPCG(6, seed))
	counts, tones := map[rgb]int{0xffffff: 400_000, 0xdfe7ee: 300_000}, map[rgb]bool{}
	inks := []rgb{0x222222, 0xffffff, 0x5b4a3f, 0x2f5f8f, 0xb03020, 0x777777}
	for _, c := range looks.NewPalette(16) {
		tone := rgbOf(c)
		tones[tone] = true
		counts[tone] += 60_000
		for shade := -13; shade <= 15; shade++ {
			slope := rgb(0).over(tone, float64(-shade)/255)
			if shade > 0 {
				slope = rgb(0xffffff).over(tone, float64(shade)/255)
			}
			counts[slope] += 2_000 + draw.IntN(4_000)
			for i := range 120 {
				rim := inks[draw.IntN(len(inks))].over(slope, draw.Float64())
				if i%4 == 0 {
					counts[inks[draw.IntN(len(inks))].over(rim, draw.Float64())] += 1 + draw.IntN(12)
				}
				counts[rim] += 1 + draw.IntN(40)
			}
		}
	}
	return counted(counts), tones
}

// checkReduction tells what is untrue of a reduction: a colour without a
// place, one that goes to a farther colour of the palette than it might, one
// to keep that did not stay, an entry that is another's twin or nobody's, a
// wrong count of how far colours move.
func checkReduction(t *testing.T, r reduction, p *Painting, size int, keep map[rgb]bool) {
	t.Helper()
	palette := make([]rgb, len(r.palette))
	entries, used, moved := map[rgb]bool{}, map[uint8]bool{}, 0
	for i, c := range r.palette {
		palette[i] = rgbOf(color.NRGBAModel.Convert(c).(color.NRGBA))
		entries[palette[i]] = true
	}
	squares := func(a, b rgb) (sum int) {
		for k := range 3 {
			sum += (a.channel(k) - b.channel(k)) * (a.channel(k) - b.channel(k))
		}
		return sum
	}
	for _, c := range p.colors {
		i, ok := r.index[c]
		if !ok {
			t.Fatalf("%06x has no place in the palette", c)
		}
		used[i] = true
		moved = max(moved, apartBy(c, palette[i]))
		if keep[c] && palette[i] != c {
			t.Errorf("%06x of the legend became %06x", c, palette[i])
		}
		for _, other := range palette {
			if squares(c, other) < squares(c, palette[i]) {
				t.Fatalf("%06x became %06x, but %06x is nearer", c, palette[i], other)
			}
		}
	}
	if len(palette) > size || len(entries) != len(palette) || len(used) != len(palette) {
		t.Errorf("of %d colours of a palette of at most %d, %d differ and %d are somebody's", len(palette), size, len(entries), len(used))
	}
	if float64(moved) != float64(r.moved) {
		t.Errorf("colours move by %d, said to be by %v", moved, r.moved)
	}
}

// A legend's tone stays beside more frequent colours that hardly differ from
// it; these become it, and that counts as moved. No entry is wasted on them.
func TestReduceBesideTones(t *testing.T) {
	tone := rgb(0x506070)
	for name, counts := range map[string]map[rgb]int{
		"lighter":      {tone: 1, 0x516070: 900, 0x506170: 90},
		"darker":       {tone: 1, 0x4f6070: 900, 0x505f70: 90},
		"on all sides": {tone: 1, 0x516171: 900, 0x4f5f6f: 900, 0x4f6171: 9, 0xff0000: 50, 0x00ff00: 1},
	} {
		t.Run(name, func(t *testing.T) {
			p, keep := counted(counts), map[rgb]bool{tone: true}
			r := reduce([]*Painting{p}, paletteSize, keep)
			checkReduction(t, r, p, paletteSize, keep)
			if r.moved != 1 {
				t.Errorf("colours next to a tone moved by %v", r.moved)
			}
		})
	}
}

// All that is promised of a palette holds in many colours, whatever its size.
func TestReduceManyColors(t *testing.T) {
	p, tones := mountains(0)
	for _, size := range []int{paletteSize, paletteSize - 1, 128, screenColors} {
		t.Run(fmt.Sprint(size), func(t *testing.T) {
			checkReduction(t, reduce([]*Painting{p}, size, tones), p, size, tones)
		})
	}
}

// A map of mountains with many lines has its place in a palette, which makes
// it a third of the bytes.
func TestMountainsFitAPalette(t *testing.T) {
	for seed := range uint64(3) {
		p, tones := mountains(seed)
		r := reduce([]*Painting{p}, paletteSize, tones)
		if len(p.colors) < 40_000 || r.moved > mostMoved {
			t.Errorf("of %d colours the farthest moves by %v, want at most %d", len(p.colors), r.moved, mostMoved)
		}
		t.Logf("%d colours moved by %v", len(p.colors), r.moved)
	}
}

// The order in which colours are met changes nothing.
func TestReduceInAnyOrder(t *testing.T) {
	p, tones := mountains(0)
	want := reduce([]*Painting{p}, screenColors, tones)
	half := &Painting{size: image.Pt(0, 1)}
	rest := &Painting{size: p.size}
	for i, c := range p.colors {
		to := half
		if i%2 == 0 {
			to = rest
		}
		to.colors, to.counts = append(to.colors, c), append(to.counts, p.counts[i])
	}
	got := reduce([]*Painting{half, rest}, screenColors, tones)
	if fmt.Sprint(got.palette) != fmt.Sprint(want.palette) {
		t.Fatal("another palette")
	}
	for c, i := range want.index {
		if got.index[c] != i {
			t.Fatalf("%06x became colour %d, then %d", c, i, got.index[c])
		}
	}
}

func BenchmarkReduce(b *testing.B) {
	p, tones := mountains(0)
	for b.Loop() {
		reduce([]*Painting{p}, paletteSize, tones)
	}
}
