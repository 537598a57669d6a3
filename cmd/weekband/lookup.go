package main

import (
	"encoding/json"
	"fmt"
	"os"
	"strconv"
	"strings"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"weekband/grid"
	"weekband/regions"
	"weekband/regions/places"
	"weekband/render/lookup"
)

type lookupCmd struct {
	Out   string `arg:"" name:"edition" help:"Folder of a built edition." complete:"folders"`
	Place string `arg:"" help:"Name or code of a place, name of a region, or a position, latitude and longitude, such as 38.2,-45.1." complete:"places"`
	JSON  bool   `help:"Answer as JSON."`

	Reading []string `help:"What your own soil thermometer showed this season, a date and a temperature; such as 2027-03-25=45F; may be given several times." placeholder:"DAY=TEMPERATURE" sep:"none" complete:"nothing" group:"What is known of this year"`
}

// Run answers for one place.
func (c lookupCmd) Run(s *streams) error {
	var readings []reading
	for _, text := range c.Reading {
		r, err := parseReading(text)
		if err != nil {
			return err
		}
		readings = append(readings, r)
	}
	c.Out = standing(c.Out, s)
	edition, err := lookup.Open(os.DirFS(c.Out))
	if err != nil {
		return fmt.Errorf("%s: %w", c.Out, err)
	}
	areas, err := publishedRegions(c.Out)
	if err != nil {
		return err
	}
	spot, err := find(edition, areas, c.Place)
	if err != nil {
		return err
	}
	answers, err := edition.At(spot.At)
	if err != nil {
		return err
	}
	reply := newReply(edition, spot, answers)
	for i := range answers {
		if err := reply.Windows[i].addYear(&answers[i], readings); err != nil {
			return err
		}
	}
	if c.JSON {
		enc := json.NewEncoder(s.out)
		enc.SetIndent("", "  ")
		return enc.Encode(reply)
	}
	return reply.write(s.out)
}

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
		return grid.LonLat{}, false, &usageError{fmt.Sprintf("position %q: want latitude -90 to 90, then longitude -180 to 180, in degrees", typed)}
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

// publishedRegions reads the edition's region polygons, called by their titles;
// an edition may have none.
func publishedRegions(out string) (regions.Set, error) {
	root, err := os.OpenRoot(out)
	if err != nil {
		return regions.Set{}, err
	}
	defer root.Close()
	f, err := root.Open(regionsFile)
	if os.IsNotExist(err) {
		return regions.Set{}, nil
	}
	if err != nil {
		return regions.Set{}, err
	}
	defer f.Close()
	return regions.Decode(f, regionsFile, regions.Options{ID: "id", Name: "title"})
}

// regionAt returns the name of the region that holds a point, "" for none.
func regionAt(areas regions.Set, at grid.LonLat) string {
	if i, ok := holder(areas, at); ok {
		return areas.Regions[i].Name
	}
	return ""
}

// holder returns the index of the region that holds a point.
func holder(areas regions.Set, at grid.LonLat) (int, bool) {
	for i, r := range areas.Regions {
		if r.Bounds.Contains(at) && planar.MultiPolygonContains(r.Shape, orb.Point{at.Lon, at.Lat}) {
			return i, true
		}
	}
	return 0, false
}
