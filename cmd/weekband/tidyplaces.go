package main

import (
	"fmt"
	"slices"

	"weekband/regions/naming"
	"weekband/regions/places"
)

// tidyPlaces makes one line of the names of places, and leaves out those that
// nothing is left of.
func (in *inputs) tidyPlaces(path string) {
	changed := 0
	first := ""
	in.places = slices.DeleteFunc(in.places, func(p places.Place) bool { return naming.Plain(p.Name) == "" })
	for i := range in.places {
		p := &in.places[i]
		for _, text := range []*string{&p.Name, &p.Code, &p.Region} {
			line := naming.Plain(*text)
			if line == *text {
				continue
			}
			if changed++; changed == 1 {
				first = line
			}
			*text = line
		}
	}
	if changed > 0 {
		in.notes = append(in.notes, fmt.Sprintf("%s: %d × names or codes held control characters, which were left out; first in %q", path, changed, first))
	}
}
