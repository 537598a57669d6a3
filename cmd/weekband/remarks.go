package main

import "fmt"

// remarks tells what happened to this run alone. It belongs into no manifest,
// unlike notes.
func (p *progress) remarks(list []string) {
	for _, r := range list {
		fmt.Fprintf(p.to, "  note: %s\n", r)
	}
}
