package main

import (
	"fmt"
	"io"
)

// progress tells on a stream what a build is doing, one line a stage.
type progress struct{ to io.Writer }

// stage says what begins.
func (p *progress) stage(format string, args ...any) {
	fmt.Fprintf(p.to, format+"\n", args...)
}

// notes tells what the user should know, at most 20 lines of it.
func (p *progress) notes(notes []string) {
	const shown = 20
	for i, n := range notes {
		if i == shown {
			fmt.Fprintf(p.to, "  note: and %d more; manifest.json has all\n", len(notes)-shown)
			return
		}
		fmt.Fprintf(p.to, "  note: %s\n", n)
	}
}
