package source

import (
	"math/rand/v2"
	"testing"
)

// Stretches that compare at once give the marks that cells give one by one.
func TestMarksJoinLikeCells(t *testing.T) {
	chance := rand.New(rand.NewPCG(12, 64))
	for _, cells := range []int{0, 1, 63, 64, 65, 500} {
		var r Rows
		r.fit(12, cells)
		has, some := make([]bool, cells), make([]bool, cells)
		for layer := range 12 {
			for k := range cells {
				r.one[k] = k%97 < 60
				if layer > 0 && chance.IntN(200) == 0 { // a cell that differs from layer to layer
					r.one[k] = !r.one[k]
				}
			}
			if layer == 0 {
				copy(r.Has, r.one)
				copy(r.any, r.one)
				copy(has, r.one)
				copy(some, r.one)
				continue
			}
			r.join()
			for k, ok := range r.one {
				has[k], some[k] = has[k] && ok, some[k] || ok
				if r.Has[k] != has[k] || r.any[k] != some[k] {
					t.Fatalf("%d cells, layer %d, cell %d: in all %t, in some %t; want %t, %t", cells, layer, k, r.Has[k], r.any[k], has[k], some[k])
				}
			}
		}
	}
}
