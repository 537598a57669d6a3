package inspect

import (
	"fmt"
	"os"

	"weekband/grid"
	"weekband/regions/places"
)

// inspectPlaces tells of a list of places.
func inspectPlaces(path string) (*Finding, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	list, notes, err := places.Decode(file, path)
	if err != nil {
		return nil, fmt.Errorf("%w\n    as a list of places; tables of stations are read by a build, keys sites and values", err)
	}
	f := newFinding("places", path)
	f.note(notes...)
	f.fact("places", "%d", len(list))
	if len(list) == 0 {
		f.suspect("the list is empty")
		return f, nil
	}
	f.describePlaces(list)
	return f, nil
}

// describePlaces tells where places lie, and of names and positions that look
// wrong.
func (f *Finding) describePlaces(list []places.Place) {
	box := grid.Box{West: 180, East: -180, South: 90, North: -90}
	seen := map[string]int{}
	nowhere := 0
	for _, p := range list {
		box.West, box.East = min(box.West, p.At.Lon), max(box.East, p.At.Lon)
		box.South, box.North = min(box.South, p.At.Lat), max(box.North, p.At.Lat)
		seen[places.Fold(p.Name)]++
		if p.At.Lon == 0 && p.At.Lat == 0 {
			nowhere++
		}
	}
	f.fact("edges", "%v", box)
	double := 0
	for _, n := range seen {
		if n > 1 {
			double += n
		}
	}
	if double > 0 {
		f.note(fmt.Sprintf("%d places share their name with another", double))
	}
	if nowhere > 0 {
		f.suspect("%d of the places lie at 0° N 0° E exactly: is their position missing?", nowhere)
	}
}
