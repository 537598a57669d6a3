package answer

import (
	"fmt"
	"strconv"
	"strings"

	"weekband/cmd/weekband/internal/usage"
	"weekband/grid"
	"weekband/regions"
	"weekband/regions/places"
	"weekband/render/lookup"
)

// spot is the point an answer is for.
type spot struct {
	places.Place
	region string
	note   string // how the point was found, when that needs saying
}

// find turns what the user typed into a point: a position, a place or a
// region.
func find(edition *lookup.Edition, areas regions.Set, typed string) (spot, error) {
	if at, ok, err := position(typed); ok || err != nil {
		return spot{Place: places.Place{At: at}, region: regionAt(areas, at)}, err
	}
	known, err := edition.PlaceList()
	if err != nil {
		return spot{}, err
	}
	found, exact := places.Find(known, typed)
	if exact || len(found) == 1 {
		s := spot{Place: found[0], region: regionAt(areas, found[0].At)}
		switch {
		case !exact:
			s.note = fmt.Sprintf("no place is called %q; this is the nearest name", typed)
		case len(found) > 1:
			s.note = fmt.Sprintf("%d places are called so; this is the first, the others are at %s", len(found), positions(found[1:]))
		}
		return s, nil
	}
	called, exactly := places.Find(asPlaces(areas), typed)
	if len(called) == 1 && (exactly || len(found) == 0) {
		r, _ := areas.ByID(called[0].Code)
		return spot{Place: places.Place{Name: r.Name, At: r.Inside()}, region: r.Name, note: "the answer is for a point in the middle of the region"}, nil
	}
	if len(found) == 0 {
		found = called
	}
	if len(found) > 0 {
		return spot{}, fmt.Errorf("no place is called %q; did you mean %s?", typed, names(found, 5))
	}
	return spot{}, fmt.Errorf("no place or region is called %q; %d places are known, and a position such as 38.2,-45.1 (latitude, longitude) always works", typed, len(known))
}

// asPlaces lists regions as places, their ids as codes.
func asPlaces(areas regions.Set) []places.Place {
	var list []places.Place
	for _, r := range areas.Regions {
		list = append(list, places.Place{Name: r.Name, Code: r.ID})
	}
	return list
}

// position reads "LAT,LON"; ok is false when the text is something else.
func position(typed string) (at grid.LonLat, ok bool, err error) {
	left, right, comma := strings.Cut(typed, ",")
	lat, err1 := strconv.ParseFloat(strings.TrimSpace(left), 64)
	lon, err2 := strconv.ParseFloat(strings.TrimSpace(right), 64)
	if !comma || err1 != nil || err2 != nil {
		return grid.LonLat{}, false, nil
	}
	if !(lat >= -90 && lat <= 90 && lon >= -180 && lon <= 180) {
		return grid.LonLat{}, false, usage.Errorf("position %q: want latitude -90 to 90, then longitude -180 to 180, in degrees", typed)
	}
	return grid.LonLat{Lon: lon, Lat: lat}, true, nil
}

func positions(list []places.Place) string {
	var out []string
	for _, p := range list {
		out = append(out, fmt.Sprintf("%.3f,%.3f", p.At.Lat, p.At.Lon))
	}
	return strings.Join(out, " and ")
}

func names(list []places.Place, most int) string {
	var out []string
	for _, p := range list[:min(most, len(list))] {
		out = append(out, p.Name)
	}
	return strings.Join(out, ", ")
}

// regionAt returns the name of the region that holds a point, "" for none.
func regionAt(areas regions.Set, at grid.LonLat) string {
	if i, ok := areas.Holder(at); ok {
		return areas.Regions[i].Name
	}
	return ""
}
