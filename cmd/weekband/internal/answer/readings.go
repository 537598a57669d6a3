package answer

import (
	"fmt"
	"io"
	"math"
	"strings"
	"time"

	"weekband/cmd/weekband/internal/usage"
	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/outlook"
	"weekband/grid/season"
	"weekband/grid/spread"
	"weekband/grid/units"
	"weekband/render/lookup"
	"weekband/render/wording"
)

// Reading is what the user's own soil thermometer showed.
type Reading struct {
	Date time.Time
	Soil units.Celsius
}

// ParseReading reads "2027-03-25=45F".
func ParseReading(text string) (Reading, error) {
	const want = "want a date and a temperature with its unit, such as 2027-03-25=45F"
	day, value, ok := strings.Cut(text, "=")
	if !ok {
		return Reading{}, usage.Errorf("reading %q: %s", text, want)
	}
	date, err := time.Parse(time.DateOnly, strings.TrimSpace(day))
	if err != nil {
		return Reading{}, usage.Errorf("reading %q: %q is no date; %s", text, day, want)
	}
	soil, err := units.Parse(strings.TrimSpace(value))
	if err != nil {
		return Reading{}, usage.Errorf("reading %q: %v", text, err)
	}
	return Reading{Date: date, Soil: soil}, nil
}

// DayOf returns noon of a date in the typical year.
func DayOf(date time.Time) season.Day { return season.OfDate(date.Month(), date.Day()) + 0.5 }

// OutlookReply is what readings make of this year.
type OutlookReply struct {
	State     string  `json:"state"`
	Departure float64 `json:"departure_c"` // of the latest reading from normal
	Crossing  string  `json:"crossing,omitempty"`
	Early     string  `json:"early,omitempty"`
	Late      string  `json:"late,omitempty"`
	Day       float64 `json:"crossing_day,omitempty"`
	Sigma     float64 `json:"spread_days,omitempty"`

	Outlook outlook.Outlook `json:"-"` // what these were made from
	far     bool            // the readings tell nothing yet
}

// expect works out this year's crossing from readings at a place with a
// typical year of soil.
func expect(year *curve.Year, a *lookup.Answer, readings []Reading) (*OutlookReply, error) {
	place := outlook.Place{Normal: year, Trigger: a.Window.Trigger, Spread: a.Spread, Error: a.Error}
	var list []outlook.Reading
	for _, r := range readings {
		list = append(list, outlook.Reading{Day: DayOf(r.Date), Soil: r.Soil})
	}
	o, err := place.Expect(list)
	if err != nil {
		return nil, usage.Errorf("%v", err)
	}
	reply := &OutlookReply{State: o.State.String(), Departure: float64(o.Departure), Outlook: o}
	if o.State == outlook.Expected {
		reply.Crossing, reply.Early, reply.Late = o.Day.ISO(), o.Early.ISO(), o.Late.ISO()
		reply.Day, reply.Sigma = float64(o.Day.In()), o.SD
		reply.far = o.SD > farFrom*spread.Together(a.Spread, a.Error)
	}
	return reply, nil
}

// farFrom is the share of the usual doubt that a reading leaves when it is too
// far from the season to tell anything.
const farFrom = 0.99

// Write tells people what the readings mean.
func (r *OutlookReply) Write(w io.Writer, l *wording.Language, trigger crossing.Trigger) {
	fmt.Fprintf(w, "  %s\n", r.sentence(l, trigger.Level.Both()))
}

// sentence says what the readings make of this year.
func (r *OutlookReply) sentence(l *wording.Language, level string) string {
	o := &r.Outlook
	many := o.Readings > 1
	if o.State == outlook.Undated {
		if many {
			return "Your readings cannot tell this year's week: no week stands out here."
		}
		return "Your reading cannot tell this year's week: no week stands out here."
	}
	off, than := o.Departure, "warmer"
	if off < 0 {
		off, than = -off, "colder"
	}
	which := "Your reading on " + l.Date(o.Latest)
	if many {
		which = fmt.Sprintf("The latest of your %d readings, on %s,", o.Readings, l.Date(o.Latest))
	}
	text := fmt.Sprintf("%s is %.1f °F (%.1f °C) %s than usual", which, off.Fahrenheit(), float64(off), than)
	switch {
	case r.far:
		return text + ", and too far from the season to tell this year's week from it."
	case o.State == outlook.Reached:
		return text + fmt.Sprintf(": this year %s is reached already.", level)
	case o.State == outlook.Unlikely:
		return text + fmt.Sprintf(": this year %s is not expected to be reached.", level)
	}
	return text + fmt.Sprintf(": this year %s is expected in the week of %s (in one year of ten before %s, in one of ten after %s), %s.",
		level, l.Week(o.Day.Week()), l.Date(o.Early), l.Date(o.Late), offTypical(float64(o.Day-o.Typical.Day)))
}

// offTypical says how far this year's day is from the typical one.
func offTypical(days float64) string {
	switch {
	case math.Abs(days) < 1:
		return "as in a typical year"
	case days < 0:
		return RoughDays(-days) + " earlier than in a typical year"
	}
	return RoughDays(days) + " later than in a typical year"
}
