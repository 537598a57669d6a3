package main

import (
	"fmt"
	"io"
)

// progress tells on a stream what a build is doing, one line a stage.
type progress struct {
	to    io.Writer
	noted int // notes told so far
}

// stage says what begins.
func (p *progress) stage(format string, args ...any) {
	fmt.Fprintf(p.to, format+"\n", args...)
}

// notes tells what the user should know and was not told yet, of a list that
// only grows. At most 20 notes are told at a time.
func (p *progress) notes(all []string) {
	const shown = 20
	fresh := all[p.noted:]
	p.noted = len(all)
	for i, n := range fresh {
		if i == shown {
			fmt.Fprintf(p.to, "  note: and %d more; manifest.json has all\n", len(fresh)-shown)
			return
		}
		fmt.Fprintf(p.to, "  note: %s\n", n)
	}
}
