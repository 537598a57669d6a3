package lookup

import "testing"

// Whatever a shard holds, it is read or refused.
func FuzzUnpack(f *testing.F) {
	x := Index{PerDay: 4, Scales: fine.scales(), Years: Years{Stride: 2, PerDegree: 10}, Windows: make([]Window, 2)}
	b := block{rows: 5, cols: 7}
	f.Add([]byte{}, 3)
	f.Add(make([]byte, 2*35+35+12), 34)
	f.Fuzz(func(t *testing.T, data []byte, i int) {
		if i < 0 || i >= b.rows*b.cols {
			return
		}
		c, err := x.unpack(b, data, i)
		if err == nil && len(c.windows) != len(x.Windows) {
			t.Errorf("%d windows", len(c.windows))
		}
	})
}

// The levels of every precision fit a byte and are no further apart than said.
func TestScales(t *testing.T) {
	for _, p := range []precision{fine, coarse} {
		s := p.scales()
		for _, scale := range [][]float64{s.Lead, s.Tail, s.Spread, s.Error} {
			if len(scale) > 256 || scale[0] != 0 || scale[len(scale)-1] < 366 {
				t.Errorf("%d levels from %v to %v days", len(scale), scale[0], scale[len(scale)-1])
			}
			for v := 0.0; v < 366; v += 0.37 {
				near := scale[level(scale, v)]
				for _, other := range scale {
					if d, least := v-near, v-other; d*d > least*least {
						t.Fatalf("%v days: level %v, %v is nearer", v, near, other)
					}
				}
			}
		}
	}
}
