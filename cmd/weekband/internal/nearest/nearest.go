package nearest

import (
	"strings"
	"unicode/utf8"

	"github.com/agnivade/levenshtein"
)

// Word returns the word of a list nearest to a typed one: the only one that
// begins with it, else the one with the fewest letters wrong, missing or too
// many, the first of equals. Case does not count. ok is false when none is
// near: a single letter was typed, or more letters would have to change than
// two, or a third of them, or all but one.
func Word(typed string, words []string) (word string, ok bool) {
	typed = strings.ToLower(typed)
	letters := utf8.RuneCountInString(typed)
	if letters < 2 {
		return "", false
	}
	best, longer := 1+min(max(2, letters/3), letters-1), 0
	beginning := ""
	for _, w := range words {
		small := strings.ToLower(w)
		if d := levenshtein.ComputeDistance(typed, small); d < best {
			word, best = w, d
		}
		if strings.HasPrefix(small, typed) {
			beginning = w
			longer++
		}
	}
	if longer == 1 {
		return beginning, true
	}
	return word, word != ""
}
