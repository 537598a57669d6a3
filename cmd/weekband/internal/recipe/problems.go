package recipe

import (
	"fmt"
	"slices"
	"strings"

	"weekband/cmd/weekband/internal/nearest"
	"weekband/grid/problem"
)

// Problem is one thing wrong with a recipe. Line and Col count from 1; 0 is
// no particular place.
type Problem struct {
	Line, Col int
	Text      string
}

// Problems is all that is wrong with a recipe, in the order of the file.
type Problems struct {
	Name string // of the file
	List []Problem

	Understood *Recipe // what can be read in spite of them; nil when it is no mapping
}

func newProblems(name string, list []Problem) *Problems {
	slices.SortStableFunc(list, func(a, b Problem) int {
		if a.Line != b.Line {
			return a.Line - b.Line
		}
		return a.Col - b.Col
	})
	return &Problems{Name: name, List: slices.Compact(list)}
}

// Error writes the problems, one a line, at most 20 of them and the number of
// the rest.
func (p *Problems) Error() string { return p.Report().Error() }

// Report returns every problem with its place.
func (p *Problems) Report() *problem.Report {
	r := new(problem.Report)
	for _, one := range p.List {
		place := p.Name
		if one.Line > 0 {
			place = fmt.Sprintf("%s:%d:%d", p.Name, one.Line, one.Col)
		}
		r.Add(p.Name, fmt.Errorf("%s: %s", place, one.Text))
	}
	return r
}

// suggestion returns `; did you mean "x"?` for the word of the list nearest
// to a mistyped one, or nothing when none is near.
func suggestion(typed string, words []string) string {
	best, ok := nearest.Word(typed, words)
	if !ok {
		return ""
	}
	return fmt.Sprintf("; did you mean %q?", best)
}

// orList writes the sorted words as "a, b or c".
func orList(words []string) string {
	words = slices.Compact(slices.Sorted(slices.Values(words)))
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " or " + words[len(words)-1]
}
