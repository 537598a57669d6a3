package regions

import "fmt"

// findings counts what was mended, by kind, and remembers where it was first
// seen, so that a file with ten thousand open rings gives one line.
type findings struct {
	file  string
	order []string
	count map[string]int
	first map[string]string
}

func newFindings(file string) *findings {
	return &findings{file: file, count: map[string]int{}, first: map[string]string{}}
}

// add notes one case. what reads on after a number: "rings were not closed".
func (f *findings) add(where, what string) {
	if f.count[what] == 0 {
		f.order = append(f.order, what)
		f.first[what] = where
	}
	f.count[what]++
}

// lines returns one line for each kind, in the order first seen.
func (f *findings) lines() []string {
	var out []string
	for _, what := range f.order {
		out = append(out, fmt.Sprintf("%s: %d × %s; first in %s", f.file, f.count[what], what, f.first[what]))
	}
	return out
}
