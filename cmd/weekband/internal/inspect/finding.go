package inspect

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"weekband/cmd/weekband/internal/convert"
	"weekband/grid/source/profile"
	"weekband/render/tables"
)

// Finding is what inspect tells of a data set.
type Finding struct {
	Files      []string        `json:"files"`
	Kind       string          `json:"kind"` // grid, polygons or places
	Facts      []Fact          `json:"facts"`
	Layers     []profile.Layer `json:"layers,omitempty"`
	Notes      []string        `json:"notes"`
	Suspicions []string        `json:"suspicions"`
}

func newFinding(kind string, files ...string) *Finding {
	return &Finding{Files: files, Kind: kind, Facts: []Fact{}, Notes: []string{}, Suspicions: []string{}}
}

// Fact is one line of what a data set holds.
type Fact struct {
	Name  string `json:"name"`
	Value string `json:"value"`
}

func (f *Finding) fact(name, format string, args ...any) {
	if value := fmt.Sprintf(format, args...); value != "" {
		f.Facts = append(f.Facts, Fact{name, value})
	}
}

func (f *Finding) suspect(format string, args ...any) {
	f.Suspicions = append(f.Suspicions, fmt.Sprintf(format, args...))
}

// restore puts the user's files in place of converted copies.
func (f *Finding) restore(c *convert.Converter) {
	for i := range f.Layers {
		f.Layers[i].Name = c.Original(f.Layers[i].Name)
	}
	for _, list := range [][]string{f.Notes, f.Suspicions} {
		for i := range list {
			list[i] = c.Original(list[i])
		}
	}
}

// note adds notes that are not there yet.
func (f *Finding) note(notes ...string) {
	for _, n := range notes {
		if !slices.Contains(f.Notes, n) {
			f.Notes = append(f.Notes, n)
		}
	}
}

// Text writes a finding for people.
func (f *Finding) Text() string {
	var b strings.Builder
	name := f.Files[0]
	if n := len(f.Files); n > 1 {
		name = fmt.Sprintf("%d files, from %s to %s", n, name, f.Files[n-1])
	}
	fmt.Fprintf(&b, "%s: %s\n", name, f.Kind)
	for _, fact := range f.Facts {
		fmt.Fprintf(&b, "  %-20s %s\n", fact.Name, fact.Value)
	}
	if len(f.Layers) > 0 {
		fmt.Fprintf(&b, "\n  %5s %10s %10s %10s %9s  %s\n", "layer", "least", "mean", "most", "missing", "name")
	}
	for i, l := range f.Layers {
		if i == 12 && len(f.Layers) > 20 {
			fmt.Fprintf(&b, "  and %d more; --json has all\n", len(f.Layers)-i)
			break
		}
		fmt.Fprintf(&b, "  %5d %10.6g %10.6g %10.6g %8.1f%%  %s\n", i+1, tables.Round(l.Min, 3), tables.Round(l.Mean, 3), tables.Round(l.Max, 3), 100*l.Missing, nameOf(l))
	}
	for _, n := range f.Notes {
		fmt.Fprintf(&b, "\nnote: %s\n", n)
	}
	for _, s := range f.Suspicions {
		fmt.Fprintf(&b, "\nlook at this: %s\n", s)
	}
	if len(f.Suspicions) == 0 {
		b.WriteString("\nNothing looks wrong.\n")
	}
	return b.String()
}

// nameOf returns a layer's name, or the month that it gives.
func nameOf(l profile.Layer) string {
	if l.Name == "" && l.Month > 0 {
		return time.Month(l.Month).String()
	}
	return l.Name
}
