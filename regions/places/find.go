package places

import (
	"slices"
	"strings"
	"unicode"

	"github.com/agnivade/levenshtein"
	"golang.org/x/text/unicode/norm"
)

// Fold returns the form in which names are compared: small letters without
// accents, with one space between words and no other punctuation.
func Fold(s string) string {
	var b strings.Builder
	gap := false
	for _, r := range norm.NFKD.String(strings.ToLower(s)) {
		switch {
		case unicode.Is(unicode.Mn, r) || r == '\'' || r == '’':
		case unicode.IsLetter(r) || unicode.IsDigit(r):
			if gap && b.Len() > 0 {
				b.WriteByte(' ')
			}
			gap = false
			b.WriteRune(r)
		default:
			gap = true
		}
	}
	return b.String()
}

// Find returns the places a reader may mean by a query, best first: those
// whose name or code is the query, else those that begin with it, else those
// a few letters away. exact reports the first kind. Case, accents and
// punctuation do not count. An empty query finds nothing.
func Find(list []Place, query string) (found []Place, exact bool) {
	q := Fold(query)
	if q == "" {
		return nil, false
	}
	var same, begins []Place
	for _, p := range list {
		name, code := Fold(p.Name), Fold(p.Code)
		switch {
		case name == q || code == q:
			same = append(same, p)
		case strings.HasPrefix(name, q) || code != "" && strings.HasPrefix(code, q):
			begins = append(begins, p)
		}
	}
	if len(same) > 0 {
		return same, true
	}
	if len(begins) > 0 {
		return begins, false
	}
	return near(list, q), false
}

// near returns the places whose folded names are at most a third of their
// letters away from the query, nearest first.
func near(list []Place, q string) []Place {
	type hit struct {
		place    Place
		distance int
	}
	var hits []hit
	for _, p := range list {
		name := Fold(p.Name)
		if d := levenshtein.ComputeDistance(q, name); d <= max(1, len([]rune(name))/3) {
			hits = append(hits, hit{p, d})
		}
	}
	slices.SortStableFunc(hits, func(a, b hit) int { return a.distance - b.distance })
	var out []Place
	for _, h := range hits {
		out = append(out, h.place)
	}
	return out
}
