package crossing

import (
	"fmt"

	"weekband/grid/units"
)

// Direction says which way the temperature passes the threshold.
type Direction uint8

const (
	Warming Direction = iota // rising through the threshold, counted from the coldest day
	Cooling                  // falling through it, counted from the warmest day
)

// String returns the word a recipe uses.
func (d Direction) String() string {
	if d == Cooling {
		return "cooling"
	}
	return "warming"
}

// Sign returns 1 for Warming and −1 for Cooling: temperatures times it rise
// through the threshold either way.
func (d Direction) Sign() float64 {
	if d == Cooling {
		return -1
	}
	return 1
}

// UnmarshalText reads "warming" or "cooling".
func (d *Direction) UnmarshalText(text []byte) error {
	switch string(text) {
	case "warming":
		*d = Warming
	case "cooling":
		*d = Cooling
	default:
		return fmt.Errorf("direction %q: want warming or cooling", text)
	}
	return nil
}

// MarshalText writes the word a recipe uses.
func (d Direction) MarshalText() ([]byte, error) { return []byte(d.String()), nil }

// Trigger is a threshold passed in one direction.
type Trigger struct {
	Level     units.Celsius
	Direction Direction
}

// Reason says what became of a cell. The zero value is NoData, so that a
// cell nobody computed is never taken for a dated one.
type Reason uint8

const (
	NoData Reason = iota // no temperatures here
	Dated                // the trigger is met; there is a day
	Flat                 // met, but so slowly that no day can be told
	Never                // the threshold is never reached
	Always               // the temperature is always above the threshold
)

// Reasons lists all reasons in their order.
var Reasons = [...]Reason{NoData, Dated, Flat, Never, Always}

// HasDay reports whether a cell with this reason has a crossing day to tell.
func (r Reason) HasDay() bool { return r == Dated }

// Crosses reports whether the trigger is met at all, be it too slowly to tell
// a day.
func (r Reason) Crosses() bool { return r == Dated || r == Flat }

// String returns the word written in tables.
func (r Reason) String() string {
	switch r {
	case Dated:
		return "dated"
	case Flat:
		return "flat"
	case Never:
		return "never"
	case Always:
		return "always"
	}
	return "nodata"
}
