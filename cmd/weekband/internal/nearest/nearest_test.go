package nearest_test

import (
	"fmt"
	"testing"

	"weekband/cmd/weekband/internal/nearest"
)

func ExampleWord() {
	word, ok := nearest.Word("treshold", []string{"title", "threshold", "starts"})
	fmt.Println(word, ok)
	// Output: threshold true
}

func TestWord(t *testing.T) {
	for _, c := range []struct{ typed, want string }{
		{"build", "build"}, {"BUILD", "build"}, {"biuld", "build"}, {"buidl", "build"}, {"bld", "build"},
		{"clibrate", "calibrate"}, {"cal", "calibrate"}, {"c", ""}, {"calbrt", ""},
		{"zzz", ""}, {"", ""}, {"xx", ""}, {"xyzzy", ""}, {"build a", "build"},
	} {
		got, ok := nearest.Word(c.typed, []string{"build", "calibrate"})
		if got != c.want || ok != (c.want != "") {
			t.Errorf("%q: %q, %v; want %q", c.typed, got, ok, c.want)
		}
	}
}
