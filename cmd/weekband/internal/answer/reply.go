package answer

import (
	"fmt"
	"io"
	"os"
	"strings"

	"weekband/cmd/weekband/internal/output"
	"weekband/render/lookup"
	"weekband/render/wording"
)

// Reply is an answer for programs; Write prints it for people.
type Reply struct {
	Place    string        `json:"place,omitempty"`
	Lat      float64       `json:"lat"` // degrees, north positive
	Lon      float64       `json:"lon"` // degrees, east positive
	Region   string        `json:"region,omitempty"`
	Note     string        `json:"note,omitempty"` // how the point was found, when that needs saying
	Edition  int           `json:"edition"`        // the year
	Measures string        `json:"measures"`
	Windows  []WindowReply `json:"windows"`
	Sure     string        `json:"sure"`
	Cautions []string      `json:"cautions"`

	answers []lookup.Answer // what Windows was made from
	lang    *wording.Language
}

// WindowReply is what one window gives. Days count from 1.0 = 1 January 0:00,
// dates are ISO 8601 month and day; they are left out without a crossing.
type WindowReply struct {
	Window string   `json:"window"`
	Title  string   `json:"title"`
	Reason string   `json:"reason"`
	Dates  *Dates   `json:"dates,omitempty"`
	Day    *float64 `json:"crossing_day,omitempty"`
	Sigma  *float64 `json:"spread_days,omitempty"`         // standard deviation from year to year
	Error  *float64 `json:"standard_error_days,omitempty"` // standard error of the crossing day
	Far    bool     `json:"far_from_soil_thermometers,omitempty"`

	Worth   *WorthReply   `json:"worth,omitempty"`
	Outlook *OutlookReply `json:"this_year,omitempty"` // from readings
}

// Dates are the days of a window at a place, ISO 8601 month and day; the week
// is 1 to 52.
type Dates struct {
	Week       int    `json:"week"`
	Crossing   string `json:"crossing"`
	EarlyYear  string `json:"early_year"`
	LateYear   string `json:"late_year"`
	AheadFrom  string `json:"ahead_from"`
	OntimeFrom string `json:"ontime_from"`
	OntimeTo   string `json:"ontime_to"`
	CatchupTo  string `json:"catchup_to"`
}

// For answers for what the user typed, a place, a region or a position, from the
// edition in a folder, with what readings make of this year. A name that is not
// known is an error with names that are near it; a position that is none, and
// readings that cannot be meant, are a *usage.Error. A position off the land is
// answered: that there are no data.
func For(dir, typed string, readings []Reading) (Reply, error) {
	edition, err := lookup.Open(os.DirFS(dir))
	if err != nil {
		return Reply{}, fmt.Errorf("%s: %w", dir, err)
	}
	areas, err := output.PublishedRegions(dir)
	if err != nil {
		return Reply{}, err
	}
	at, err := find(edition, areas, typed)
	if err != nil {
		return Reply{}, err
	}
	answers, err := edition.At(at.At)
	if err != nil {
		return Reply{}, err
	}
	r := newReply(edition, at, answers)
	for i := range answers {
		if err := r.Windows[i].addYear(&answers[i], readings); err != nil {
			return r, err
		}
	}
	return r, nil
}

func newReply(e *lookup.Edition, s spot, answers []lookup.Answer) Reply {
	r := Reply{
		Place: s.Name, Lat: s.At.Lat, Lon: s.At.Lon, Region: s.region, Note: s.note, Edition: e.Index.Edition,
		Measures: e.Measures, Sure: e.Sure, Cautions: e.Cautions, answers: answers, lang: e.Words,
	}
	for i := range answers {
		r.Windows = append(r.Windows, newWindowReply(&answers[i]))
	}
	return r
}

// newWindowReply returns what an answer tells, without what a year adds.
func newWindowReply(a *lookup.Answer) WindowReply {
	w := WindowReply{Window: a.Window.ID, Title: a.Window.Title, Reason: a.Reason.String(), Far: a.Beyond}
	if !a.Reason.HasDay() {
		return w
	}
	day, sigma, c := float64(a.Day.In()), a.Spread, a.Calendar
	w.Day, w.Sigma = &day, &sigma
	if e := a.Error; e > 0 {
		w.Error = &e
	}
	w.Dates = &Dates{
		Week: int(a.Day.Week()), Crossing: a.Day.ISO(), EarlyYear: a.Early.ISO(), LateYear: a.Late.ISO(),
		AheadFrom: c.AheadFrom.ISO(), OntimeFrom: c.OntimeFrom.ISO(), OntimeTo: c.OntimeTo.ISO(), CatchupTo: c.CatchupTo.ISO(),
	}
	return w
}

// Write prints the reply for people.
func (r Reply) Write(w io.Writer) error {
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
	for i, a := range r.answers {
		fmt.Fprintf(&b, "\n%s\n", a.Window.Title)
		writeWhen(&b, r.lang, r.Measures, a)
		if v := r.Windows[i].Worth; v != nil {
			v.write(&b, r.lang, &a.Window, a.Calendar)
		}
		if o := r.Windows[i].Outlook; o != nil {
			o.write(&b, r.lang, a.Window.Trigger)
		}
	}
	fmt.Fprintf(&b, "\nHow sure: %s\n\n", r.Sure)
	for _, c := range r.Cautions {
		fmt.Fprintf(&b, "- %s\n", c)
	}
	_, err := io.WriteString(w, b.String())
	return err
}
