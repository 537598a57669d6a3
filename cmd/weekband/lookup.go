package main

import (
	"encoding/json"
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/season"
	"weekband/regions"
	"weekband/regions/places"
	"weekband/render/lookup"
)

type lookupCmd struct {
	Out   string `arg:"" help:"Folder of a built edition." placeholder:"OUT"`
	Place string `arg:"" help:"Name or code of a place, name of a region, or a position such as 38.2,-45.1." placeholder:"PLACE|LAT,LON"`
	JSON  bool   `help:"Answer as JSON."`
}

// Run answers for one place.
func (c lookupCmd) Run(s *streams) error {
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
	found, exact := places.Find(edition.PlaceList(), typed)
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
	for _, r := range areas.Regions {
		if places.Fold(r.Name) == places.Fold(typed) || strings.EqualFold(r.ID, typed) {
			at := r.Inside()
			return spot{Place: places.Place{Name: r.Name, At: at}, region: r.Name, note: "the answer is for a point in the middle of the region"}, nil
		}
	}
	if len(found) > 0 {
		return spot{}, fmt.Errorf("no place is called %q; did you mean %s?", typed, names(found, 5))
	}
	return spot{}, fmt.Errorf("no place or region is called %q; %d places are known, and a position such as 38.2,-45.1 (latitude, longitude) always works", typed, len(edition.Places))
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

// publishedRegions reads the edition's region polygons; an edition may have
// none.
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
	return regions.Decode(f, regionsFile, regions.Options{ID: "id", Name: "name"})
}

// regionAt returns the name of the region that holds a point, "" for none.
func regionAt(areas regions.Set, at grid.LonLat) string {
	for _, r := range areas.Regions {
		if r.Bounds.Contains(at) && planar.MultiPolygonContains(r.Shape, orb.Point{at.Lon, at.Lat}) {
			return r.Name
		}
	}
	return ""
}

// reply is an answer as it is printed.
type reply struct {
	Place    string          `json:"place,omitempty"`
	Lat      float64         `json:"lat"`
	Lon      float64         `json:"lon"`
	Region   string          `json:"region,omitempty"`
	Note     string          `json:"note,omitempty"`
	Edition  int             `json:"edition"`
	Measures string          `json:"measures"`
	Windows  []windowReply   `json:"windows"`
	Sure     string          `json:"sure"`
	Cautions []string        `json:"cautions"`
	answers  []lookup.Answer // what Windows was made from
}

// windowReply is what one window gives. Days count from 1.0 = 1 January 0:00,
// dates are ISO 8601 month and day; they are left out without a crossing.
type windowReply struct {
	Window string   `json:"window"`
	Title  string   `json:"title"`
	Reason string   `json:"reason"`
	Dates  *dates   `json:"dates,omitempty"`
	Day    *float64 `json:"crossing_day,omitempty"`
	Sigma  *float64 `json:"spread_days,omitempty"`
}

type dates struct {
	Week       int    `json:"week"`
	Crossing   string `json:"crossing"`
	EarlyYear  string `json:"early_year"`
	LateYear   string `json:"late_year"`
	AheadFrom  string `json:"ahead_from"`
	OntimeFrom string `json:"ontime_from"`
	OntimeTo   string `json:"ontime_to"`
	CatchupTo  string `json:"catchup_to"`
}

func newReply(e *lookup.Edition, s spot, answers []lookup.Answer) reply {
	r := reply{
		Place: s.Name, Lat: s.At.Lat, Lon: s.At.Lon, Region: s.region, Note: s.note, Edition: e.Index.Edition,
		Measures: e.Measures, Sure: e.Sure, Cautions: e.Cautions, answers: answers,
	}
	for _, a := range answers {
		w := windowReply{Window: a.Window.ID, Title: a.Window.Title, Reason: a.Reason.String()}
		if a.Reason.HasDay() {
			day, sigma, c := float64(a.Day.In()), a.Spread, a.Calendar
			w.Day, w.Sigma = &day, &sigma
			w.Dates = &dates{
				Week: int(a.Day.Week()), Crossing: a.Day.ISO(), EarlyYear: a.Early.ISO(), LateYear: a.Late.ISO(),
				AheadFrom: c.AheadFrom.ISO(), OntimeFrom: c.OntimeFrom.ISO(), OntimeTo: c.OntimeTo.ISO(), CatchupTo: c.CatchupTo.ISO(),
			}
		}
		r.Windows = append(r.Windows, w)
	}
	return r
}

// write prints the reply for people.
func (r reply) write(w io.Writer) error {
	var b strings.Builder
	head := fmt.Sprintf("%.3f, %.3f", r.Lat, r.Lon)
	if r.Place != "" {
		head = r.Place + " (" + head + ")"
	}
	if r.Region != "" && r.Region != r.Place {
		head += ", " + r.Region
	}
	fmt.Fprintln(&b, head)
	if r.Note != "" {
		fmt.Fprintf(&b, "  (%s)\n", r.Note)
	}
	for _, a := range r.answers {
		fmt.Fprintf(&b, "\n%s\n", a.Window.Title)
		writeAnswer(&b, r.Measures, a)
	}
	fmt.Fprintf(&b, "\nHow sure: %s\n\n", r.Sure)
	for _, c := range r.Cautions {
		fmt.Fprintf(&b, "- %s\n", c)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func writeAnswer(b *strings.Builder, measures string, a lookup.Answer) {
	level := a.Window.Trigger.Level.Both()
	verb := "reaches"
	if a.Window.Trigger.Direction == crossing.Cooling {
		verb = "falls to"
	}
	switch a.Reason {
	case crossing.NoData:
		fmt.Fprintf(b, "  no data here: the point lies off the land the normals cover\n")
		return
	case crossing.Never:
		fmt.Fprintf(b, "  %s never %s %s in a typical year here\n", measures, reached(a.Window.Trigger.Direction), level)
		return
	case crossing.Always:
		fmt.Fprintf(b, "  %s stays above %s all through a typical year here: no week stands out\n", measures, level)
		return
	}
	c := a.Calendar
	fmt.Fprintf(b, "  %s %s %s in the week of %s (early year %s, late year %s)\n", measures, verb, level, a.Day.Week(), a.Early, a.Late)
	fmt.Fprintf(b, "  ahead of time  %s\n", season.Span(c.AheadFrom, c.OntimeFrom))
	fmt.Fprintf(b, "  on time        %s\n", season.Span(c.OntimeFrom, c.OntimeTo))
	fmt.Fprintf(b, "  catching up    %s\n", season.Span(c.OntimeTo, c.CatchupTo))
	if a.Reason == crossing.Flat {
		fmt.Fprintf(b, "  the temperature passes the threshold slowly here, so the week is uncertain\n")
	}
}

func reached(d crossing.Direction) string {
	if d == crossing.Cooling {
		return "is as warm as"
	}
	return "reaches"
}
