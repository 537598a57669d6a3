package weeks_test

import (
	"bytes"
	"reflect"
	"testing"

	"weekband/grid"
	"weekband/grid/calibration"
	"weekband/grid/weeks"
)

// What is read back is what was computed, with and without errors of the day;
// of a text cut short anywhere, or with a byte too many, nothing is.
func TestSavedFieldsAreTheSame(t *testing.T) {
	n := randomYears(t, 11, 7)
	n.has[3*7+4] = false
	for name, opts := range map[string]weeks.Options{"plain": {}, "with offsets": {Offsets: calibration.US().Over(n.Grid())}} {
		want, err := weeks.Compute(t.Context(), n, windows(), opts)
		if err != nil {
			t.Fatal(err)
		}
		var text bytes.Buffer
		if err := weeks.Save(&text, want); err != nil {
			t.Fatal(err)
		}
		got, err := weeks.Load(bytes.NewReader(text.Bytes()), n.Grid(), windows())
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(got, want) {
			t.Errorf("%s: the fields read back differ", name)
		}
		for cut := range text.Len() {
			if _, err := weeks.Load(bytes.NewReader(text.Bytes()[:cut]), n.Grid(), windows()); err == nil {
				t.Fatalf("%s: %d of %d bytes were read without an error", name, cut, text.Len())
			}
		}
		if _, err := weeks.Load(bytes.NewReader(append(text.Bytes(), 0)), n.Grid(), windows()); err == nil {
			t.Errorf("%s: a byte too many was read without an error", name)
		}
		smaller, err := grid.New(n.Grid().Box(), 5, 7)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := weeks.Load(bytes.NewReader(text.Bytes()), smaller, windows()); err == nil {
			t.Errorf("%s: fields of another grid were read without an error", name)
		}
	}
}
