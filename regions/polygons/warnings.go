package polygons

import (
	"fmt"
	"strings"
)

// findings counts what was mended, by kind, and remembers where it was first
// seen, so that a file with ten thousand open rings gives one line.
type findings struct {
	file  string
	order []string
	count map[string]int
	first map[string]string
	notes []string // about the file as a whole
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

// note adds a line about the file as a whole.
func (f *findings) note(format string, args ...any) {
	f.notes = append(f.notes, f.file+": "+fmt.Sprintf(format, args...))
}

// instead tells what was left out where nothing is left.
func (f *findings) instead() string {
	var list []string
	for _, what := range f.order {
		list = append(list, fmt.Sprintf("%d × %s", f.count[what], what))
	}
	if len(list) == 0 {
		return "; the file holds no features at all"
	}
	return ": " + strings.Join(list, "; ")
}

// lines returns the notes, and one line for each kind, in the order first seen.
func (f *findings) lines() []string {
	out := f.notes
	for _, what := range f.order {
		out = append(out, fmt.Sprintf("%s: %d × %s; first in %s", f.file, f.count[what], what, f.first[what]))
	}
	return out
}
