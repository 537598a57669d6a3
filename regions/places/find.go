package places

import (
	"cmp"
	"slices"
	"strings"
	"unicode"

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

// Starts returns, folded, where what a reader types may begin to be like the
// place: its name, each later word of it with what follows, and its code; each
// once, none empty.
func (p Place) Starts() []string {
	var out []string
	add := func(s string) {
		if s != "" && !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	for name, more := Fold(p.Name), true; more; _, name, more = strings.Cut(name, " ") {
		add(name)
	}
	add(Fold(p.Code))
	return out
}

// Compare orders places: ranked ones first, by rank; then by folded name and,
// so that the order is never left to chance, by all else.
func Compare(a, b Place) int {
	rank := func(p Place) uint { return uint(p.Rank) - 1 } // 0, not given, comes last
	return cmp.Or(
		cmp.Compare(rank(a), rank(b)), strings.Compare(Fold(a.Name), Fold(b.Name)), strings.Compare(a.Name, b.Name),
		strings.Compare(a.Code, b.Code), strings.Compare(a.Region, b.Region),
		cmp.Compare(a.At.Lat, b.At.Lat), cmp.Compare(a.At.Lon, b.At.Lon),
	)
}

// How well a place answers a query, best first. Names that are near come after
// all of these, the more letters are wrong the later.
const (
	same   = iota // its name or code is the query
	begins        // its name begins with it
	later         // a later word of its name does
	coded         // its code does
	almost
)

// Find returns the places a reader may mean by a query, best first: those whose
// name or code is the query; else those whose name begins with it, then those
// of which a later word does, then those whose code does; else those that are,
// or begin with, almost the query: at most a third of its letters, and one at
// least, are wrong, missing, too many, or swapped with a neighbour. Places that
// answer as well are in the order of Compare. exact reports the first kind.
// Case, accents and punctuation do not count. An empty query finds nothing.
func Find(list []Place, query string) (found []Place, exact bool) {
	q := Fold(query)
	if q == "" {
		return nil, false
	}
	best := almost
	grades := make([]int, len(list))
	for i := range list {
		grades[i] = list[i].grade(q)
		best = min(best, grades[i])
	}
	if best == almost {
		return nearest(list, []rune(q)), false
	}
	worst := coded
	if best == same {
		worst = same
	}
	return pick(list, grades, worst), best == same
}

// grade tells how well a place answers a folded query by its letters.
func (p *Place) grade(q string) int {
	name, code := Fold(p.Name), Fold(p.Code)
	switch {
	case name == q || code == q:
		return same
	case strings.HasPrefix(name, q):
		return begins
	case strings.Contains(name, " "+q):
		return later
	case strings.HasPrefix(code, q):
		return coded
	}
	return almost
}

// nearest returns the places almost like a query, nearest first. A name that
// begins almost with it comes after those that are almost it.
func nearest(list []Place, q []rune) []Place {
	limit := max(1, len(q)/3)
	grades := make([]int, len(list))
	for i := range list {
		grades[i] = 2*limit + 2
		whole, begin := steps(q, []rune(Fold(list[i].Name)), limit)
		if whole <= limit {
			grades[i] = 2 * whole
		}
		if begin <= limit && len(q) > 3 { // nearly everything begins almost with three letters
			grades[i] = min(grades[i], 2*begin+1)
		}
	}
	return pick(list, grades, 2*limit+1)
}

// pick returns the places whose grade is at most worst, best first.
func pick(list []Place, grades []int, worst int) []Place {
	type hit struct {
		place *Place
		grade int
	}
	var hits []hit
	for i := range list {
		if grades[i] <= worst {
			hits = append(hits, hit{&list[i], grades[i]})
		}
	}
	slices.SortStableFunc(hits, func(a, b hit) int {
		return cmp.Or(cmp.Compare(a.grade, b.grade), Compare(*a.place, *b.place))
	})
	var out []Place
	for _, h := range hits {
		out = append(out, *h.place)
	}
	return out
}
