package inputs

import (
	"fmt"
	"slices"

	"weekband/regions/naming"
	"weekband/regions/places"
)

// tidyPlaces makes one line of the names of places, and leaves out those that
// nothing is left of.
func (in *Set) tidyPlaces(path string) {
	changed := 0
	first := ""
	in.Places = slices.DeleteFunc(in.Places, func(p places.Place) bool { return naming.Plain(p.Name) == "" })
	for i := range in.Places {
		p := &in.Places[i]
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
		in.Notes = append(in.Notes, fmt.Sprintf("%s: %d × names or codes held control characters, which were left out; first in %q", path, changed, first))
	}
}
