package weeks_test

import (
	"bytes"
	"math/rand/v2"
	"reflect"
	"slices"
	"sync/atomic"
	"testing"

	"weekband/grid/calibration"
	"weekband/grid/source"
	"weekband/grid/weeks"
)

// fitful are normals that hang, beyond their last digits, on where a block
// begins, with as many partial cells as the number of its first row.
type fitful struct{ table }

func (n fitful) Read(first, rows int, dst *source.Rows) error {
	if err := n.table.Read(first, rows, dst); err != nil {
		return err
	}
	for m, layer := range dst.Vals {
		dst.Vals[m] = slices.Clone(layer)
		for i := range dst.Vals[m] {
			dst.Vals[m][i] += float32(first) / 64
		}
	}
	dst.Partial = first
	return nil
}

// Parts of any rows, put together in any order, are what one computation
// gives, partial cells included.
func TestPartsMakeTheWhole(t *testing.T) {
	n := fitful{randomYears(t, 53, 4)}
	n.has[31*4+2] = false
	rng := rand.New(rand.NewPCG(4, 7))
	for name, opts := range map[string]weeks.Options{"plain": {}, "with offsets": {Offsets: calibration.US().Over(n.Grid())}} {
		var rows, partial atomic.Int64
		opts.Done = func(r, p int) { rows.Add(int64(r)); partial.Add(int64(p)) }
		want, err := weeks.Compute(t.Context(), n, windows(), opts)
		if err != nil {
			t.Fatal(err)
		}
		wantPartial := partial.Swap(0)
		if r := rows.Swap(0); r != 53 {
			t.Fatalf("%s: told of %d rows, want 53", name, r)
		}
		for range 3 {
			cuts := []int{0, 53}
			for range rng.IntN(6) {
				cuts = append(cuts, rng.IntN(53))
			}
			slices.Sort(cuts)
			cuts = slices.Compact(cuts)
			whole := weeks.NewAssembly(n.Grid(), windows())
			for _, k := range rng.Perm(len(cuts) - 1) {
				span := weeks.Span{From: cuts[k], To: cuts[k+1]}
				var text bytes.Buffer
				if err := weeks.WritePart(t.Context(), &text, n, windows(), opts, span); err != nil {
					t.Fatal(err)
				}
				if err := whole.Load(&text, span); err != nil {
					t.Fatal(err)
				}
			}
			if !reflect.DeepEqual(whole.Fields(), want) {
				t.Errorf("%s: cut at rows %v the fields differ", name, cuts)
			}
			if r, p := rows.Swap(0), partial.Swap(0); r != 53 || p != wantPartial {
				t.Errorf("%s: cut at rows %v told of %d rows and %d partial cells, want 53 and %d", name, cuts, r, p, wantPartial)
			}
		}
	}
}

// Of a part cut short anywhere, or with a byte too many, nothing is taken for
// whole.
func TestDamagedPart(t *testing.T) {
	n := randomYears(t, 3, 4)
	span := weeks.Span{From: 1, To: 3}
	var text bytes.Buffer
	if err := weeks.WritePart(t.Context(), &text, n, windows(), weeks.Options{}, span); err != nil {
		t.Fatal(err)
	}
	load := func(text []byte) error {
		return weeks.NewAssembly(n.Grid(), windows()).Load(bytes.NewReader(text), span)
	}
	if err := load(text.Bytes()); err != nil {
		t.Error(err)
	}
	for cut := range text.Len() {
		if load(text.Bytes()[:cut]) == nil {
			t.Fatalf("%d of %d bytes were read without an error", cut, text.Len())
		}
	}
	if load(append(text.Bytes(), 0)) == nil {
		t.Error("a byte too many was read without an error")
	}
}
