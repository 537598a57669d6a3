package places

import (
	"math/rand/v2"
	"testing"

	"github.com/agnivade/levenshtein"
)

// Worked by hand; the last but one is the usual example of what the restricted
// distance does not do: swap two letters and put one between them.
func TestSteps(t *testing.T) {
	for _, c := range []struct {
		q, name      string
		whole, begin int
	}{
		{"elm", "elm", 0, 0}, {"elm", "elmere", 3, 0}, {"lem", "elmere", 4, 1}, {"", "ab", 2, 0}, {"ab", "", 2, 2},
		{"kitten", "sitting", 3, 2}, {"ca", "abc", 3, 1}, {"ab", "ba", 1, 1},
	} {
		if whole, begin := steps([]rune(c.q), []rune(c.name), 9); whole != c.whole || begin != c.begin {
			t.Errorf("%q to %q: %d and %d, want %d and %d", c.q, c.name, whole, begin, c.whole, c.begin)
		}
	}
}

// Against a library's Levenshtein distance: a swap is two of its steps, so ours
// lies between half of it and it; without swaps they are equal. The nearest
// beginning is the nearest of all beginnings.
func TestStepsAgainstLevenshtein(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	word := func(letters string) string {
		b := make([]byte, rng.IntN(9))
		for i := range b {
			b[i] = letters[rng.IntN(len(letters))]
		}
		return string(b)
	}
	for range 5000 {
		q, name := word("abc"), word("abc")
		whole, begin := steps([]rune(q), []rune(name), 20)
		if theirs := levenshtein.ComputeDistance(q, name); whole > theirs || 2*whole < theirs {
			t.Fatalf("%q to %q: %d, Levenshtein %d", q, name, whole, theirs)
		}
		least := len(q)
		for end := range name {
			d, _ := steps([]rune(q), []rune(name[:end]), 20)
			least = min(least, d)
		}
		if least = min(least, whole); begin != least {
			t.Fatalf("%q to a beginning of %q: %d, want %d", q, name, begin, least)
		}
		short, near := steps([]rune(q), []rune(name), 1)
		if whole <= 1 && short != whole || whole > 1 && short <= 1 || begin <= 1 && near != begin || begin > 1 && near <= 1 {
			t.Fatalf("%q to %q: %d and %d, with a limit of 1 %d and %d", q, name, whole, begin, short, near)
		}
	}
}
