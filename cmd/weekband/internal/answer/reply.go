package answer

import (
	"fmt"
	"io"
	"os"
	"strings"
	"unicode"
	"unicode/utf8"

	"weekband/cmd/weekband/internal/output"
	"weekband/grid/crossing"
	"weekband/grid/spread"
	"weekband/render/lookup"
	"weekband/render/wording"
)

// Reply is an answer as it is printed.
type Reply struct {
	Place    string          `json:"place,omitempty"`
	Lat      float64         `json:"lat"`
	Lon      float64         `json:"lon"`
	Region   string          `json:"region,omitempty"`
	Note     string          `json:"note,omitempty"`
	Edition  int             `json:"edition"`
	Measures string          `json:"measures"`
	Windows  []WindowReply   `json:"windows"`
	Sure     string          `json:"sure"`
	Cautions []string        `json:"cautions"`
	answers  []lookup.Answer // what Windows was made from
	lang     *wording.Language
}

// WindowReply is what one window gives. Days count from 1.0 = 1 January 0:00,
// dates are ISO 8601 month and day; they are left out without a crossing.
type WindowReply struct {
	Window string   `json:"window"`
	Title  string   `json:"title"`
	Reason string   `json:"reason"`
	Dates  *Dates   `json:"dates,omitempty"`
	Day    *float64 `json:"crossing_day,omitempty"`
	Sigma  *float64 `json:"spread_days,omitempty"`
	Error  *float64 `json:"error_days,omitempty"` // standard error of the crossing day
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

// For answers for what the user typed, a place, a region or a position, from
// the edition in a folder, with what readings make of this year.
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
		r.Windows = append(r.Windows, NewWindowReply(&answers[i]))
	}
	return r
}

// NewWindowReply returns what an answer tells, without what a year adds.
func NewWindowReply(a *lookup.Answer) WindowReply {
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
		WriteAnswer(&b, r.lang, r.Measures, a)
		if v := r.Windows[i].Worth; v != nil {
			v.Write(&b, r.lang, &a.Window, a.Calendar)
		}
		if o := r.Windows[i].Outlook; o != nil {
			o.Write(&b, r.lang, a.Window.Trigger)
		}
	}
	fmt.Fprintf(&b, "\nHow sure: %s\n\n", r.Sure)
	for _, c := range r.Cautions {
		fmt.Fprintf(&b, "- %s\n", c)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// WriteAnswer tells people when, on lines of their own.
func WriteAnswer(b *strings.Builder, l *wording.Language, measures string, a lookup.Answer) {
	if !a.Reason.HasDay() {
		fmt.Fprintf(b, "  %s\n", undatedSentence(measures, &a))
		return
	}
	c := a.Calendar
	fmt.Fprintf(b, "  %s\n", typicalSentence(l, measures, &a))
	fmt.Fprintf(b, "  ahead of time  %s\n", l.Span(c.AheadFrom, c.OntimeFrom))
	fmt.Fprintf(b, "  on time        %s\n", l.Span(c.OntimeFrom, c.OntimeTo))
	fmt.Fprintf(b, "  catching up    %s\n", l.Span(c.OntimeTo, c.CatchupTo))
	if a.Error > 0 {
		fmt.Fprintf(b, "  The typical week is expected to be off by about %s.\n", RoughDays(spread.Expected(a.Error)))
	}
	if a.Beyond {
		fmt.Fprintf(b, "  No station with soil thermometers is near: soil here is air and a general offset.\n")
	}
}

// typicalSentence says when the soil passes the threshold.
func typicalSentence(l *wording.Language, measures string, a *lookup.Answer) string {
	verb := "reaches"
	if a.Window.Trigger.Direction == crossing.Cooling {
		verb = "falls to"
	}
	return fmt.Sprintf("%s %s %s in the week of %s in a typical year; in one year of ten before %s, in one of ten after %s.",
		capital(measures), verb, a.Window.Trigger.Level.Both(), l.Week(a.Day.Week()), l.Date(a.Early), l.Date(a.Late))
}

// undatedSentence says why there is no day.
func undatedSentence(measures string, a *lookup.Answer) string {
	level, what := a.Window.Trigger.Level.Both(), capital(measures)
	switch a.Reason {
	case crossing.Never:
		if a.Window.Trigger.Direction == crossing.Cooling {
			return fmt.Sprintf("%s is never as warm as %s in a typical year here.", what, level)
		}
		return fmt.Sprintf("%s never reaches %s in a typical year here.", what, level)
	case crossing.Always:
		return fmt.Sprintf("%s stays above %s all through a typical year here: no week stands out.", what, level)
	case crossing.Flat:
		return fmt.Sprintf("%s hovers near %s for weeks in a typical year here, so no week can be told; go by a thermometer and local advice.", what, level)
	}
	return "No data here: the point lies off the land the normals cover."
}

// capital begins a sentence with what is measured.
func capital(text string) string {
	r, n := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(r)) + text[n:]
}
