package series

import (
	"fmt"
	"strings"
	"time"

	"weekband/grid/units"
)

// Air is the Sensor of a Finding about air. Soil sensors are numbered as in
// Network.Depths.
const Air = -1

// Kind is what a Finding is about.
type Kind uint8

const (
	Short   Kind = iota // too few complete years
	Gap                 // months of the year that are hardly ever complete
	Stuck               // a run of equal values away from 0 °C
	Plateau             // runs of equal values near 0 °C: freezing, thawing or snow; no fault
	Spike               // a single day that stands out, and air does not
	Range               // a value no ground or air has
	Step                // a lasting change of soil less lagged air: sensor or site changed
	Swapped             // soil moves more from day to day than air: columns confused
	Same                // two columns hold the same numbers
	Depths              // a deeper sensor moves more than a shallower one
	Unit                // numbers too high for °C
)

var kinds = [...]string{"short", "gap", "stuck", "plateau", "spike", "range", "step", "swapped", "same", "depths", "unit"}

// String returns the word a report uses.
func (k Kind) String() string { return kinds[k] }

// Act is what a Finding led to.
type Act uint8

const (
	Noted    Act = iota // nothing: for the user to know
	SetAside            // its values were taken out
	Refused             // the sensor should not be used
)

// String returns the word a report uses.
func (a Act) String() string { return [...]string{"noted", "set aside", "refused"}[a] }

// Finding is something about one sensor of a station.
type Finding struct {
	Kind     Kind
	Act      Act
	Sensor   int  // Air or an index in Network.Depths
	From, To Date // both included; of a Step, To is the last date before it
	Days     int  // values concerned; of Short and Gap, years of the scarcest month
	// Size is the height of a Spike or Step, the value that is Stuck or out of
	// Range, the share of values that are the Same, the ratio of day-to-day
	// changes of Swapped and Depths, or the mean of a wrong Unit.
	Size float64

	month time.Month // the scarcest, of Short and Gap
}

// Coverage tells how much of a pair of air and soil there is.
type Coverage struct {
	Pairs    int         // days, or months, with both
	Complete [12]int     // years in which the calendar month is complete
	Missing  [12]float64 // share of the calendar month missing, from the first pair to the last
}

// scarcest returns the calendar month that is complete in the fewest years,
// and that number.
func (c *Coverage) scarcest() (time.Month, int) {
	least := 0
	for m, n := range c.Complete {
		if n < c.Complete[least] {
			least = m
		}
	}
	return time.Month(least + 1), c.Complete[least]
}

// Report tells what was found at one station.
type Report struct {
	ID       string
	Findings []Finding
	Soil     []Coverage // by depth, after cleaning

	depths []units.Metres
}

// Usable reports whether air and the soil sensor have no Finding that is
// Refused.
func (r *Report) Usable(soil int) bool {
	for _, f := range r.Findings {
		if f.Act == Refused && (f.Sensor == soil || f.Sensor == Air) {
			return false
		}
	}
	return true
}

// Text returns a line about a finding of this report, such as "soil at 10 cm:
// a step of +1.7 K after 2012-08-31 (noted)".
func (r *Report) Text(f Finding) string {
	sensor := "air"
	if f.Sensor != Air {
		sensor = "soil at " + r.depths[f.Sensor].Centimetres()
	}
	return fmt.Sprintf("%s: %s (%s)", sensor, r.what(f), f.Act)
}

func (r *Report) what(f Finding) string {
	span := f.From.String()
	if f.To != f.From {
		span += " to " + f.To.String()
	}
	switch f.Kind {
	case Short:
		return fmt.Sprintf("no month is complete in more than %s", units.Count(f.Days, "year"))
	case Gap:
		return fmt.Sprintf("%s is complete in only %s", f.month, units.Count(f.Days, "year"))
	case Stuck:
		return fmt.Sprintf("stuck at %.1f °C for %s, %s", f.Size, units.Count(f.Days, "day"), span)
	case Plateau:
		return fmt.Sprintf("still near 0 °C on %s, freezing, thawing or snow", units.Count(f.Days, "day"))
	case Spike:
		return fmt.Sprintf("a spike of %+.1f K on %s", f.Size, span)
	case Range:
		return fmt.Sprintf("%.1f °C on %s", f.Size, span)
	case Step:
		return fmt.Sprintf("a step of %+.1f K after %s: was a sensor or the site changed?", f.Size, f.To)
	case Swapped:
		return fmt.Sprintf("moves %.2f times as much from day to day as air: are the columns swapped?", f.Size)
	case Same:
		return fmt.Sprintf("%.0f %% of the values equal those of another column: was one copied?", 100*f.Size)
	case Depths:
		return fmt.Sprintf("moves %.2f times as much from day to day as the sensor above: are the depths swapped?", f.Size)
	}
	return fmt.Sprintf("the mean is %.0f °C: are these degrees Fahrenheit?", f.Size)
}

// String writes one line for each finding, each beginning with the id; ""
// without any.
func (r *Report) String() string {
	var b strings.Builder
	for _, f := range r.Findings {
		fmt.Fprintf(&b, "%s, %s\n", r.ID, r.Text(f))
	}
	return b.String()
}
