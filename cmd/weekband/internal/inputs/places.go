package inputs

import (
	"fmt"
	"os"
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

func (in *Set) readPlaces(name string) error {
	path := in.path(name)
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	var notes []string
	if in.Places, notes, err = places.Decode(f, path); err != nil {
		return err
	}
	in.Notes = append(in.Notes, notes...)
	if len(in.Places) == 0 {
		in.Notes = append(in.Notes, path+": no place below the first line")
	}
	in.tidyPlaces(path)
	in.used("places", path)
	return nil
}

// notePlaces says which places have no answer because they lie off the grid of
// the normals.
func (in *Set) notePlaces() {
	box := in.Normals.Grid().Box()
	off, first := 0, ""
	for _, p := range in.Places {
		if box.Contains(p.At) {
			continue
		}
		if off++; off == 1 {
			first = p.Name
		}
	}
	if off > 0 {
		in.Notes = append(in.Notes, fmt.Sprintf("%d of %d places lie outside the normals, the first is %s; are lat and lon right, north and east positive?", off, len(in.Places), first))
	}
}
