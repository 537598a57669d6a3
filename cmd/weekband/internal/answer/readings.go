package answer

import (
	"strings"
	"time"

	"weekband/cmd/weekband/internal/usage"
	"weekband/grid/season"
	"weekband/grid/units"
)

// Reading is what the user's own soil thermometer showed.
type Reading struct {
	Date time.Time
	Soil units.Celsius
}

// ParseReading reads a date and a temperature with its unit, "2027-03-25=45F";
// anything else is a *usage.Error.
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

// dayOf returns noon of a date in the typical year; 29 February is the 28th.
func dayOf(date time.Time) season.Day { return season.OfDate(date.Month(), date.Day()) + 0.5 }
