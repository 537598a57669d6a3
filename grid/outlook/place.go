package outlook

import (
	"errors"
	"fmt"
	"math"

	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/units"
)

// maxDeparture is how far from normal a reading may be, in kelvins. Of some
// 300,000 daily means the farthest is 15.6; what lies beyond is another unit,
// depth or place.
const maxDeparture units.Delta = 16

// Place is what the map knows of a place.
type Place struct {
	Normal  *curve.Year // of soil at the depth of the thermometer, °C
	Trigger crossing.Trigger
	Spread  float64 // standard deviation of the crossing from year to year in days, more than 0
	Error   float64 // standard error of the typical day in days; 0 if unknown
}

// Reading is what a soil thermometer showed. Day is the moment, so noon of
// 12 March is season.Date(time.March, 12) + 0.5; a day of a neighbouring year
// is as good, see Place.Expect.
type Reading struct {
	Day  season.Day
	Soil units.Celsius
}

// Check returns an error that names every reading and figure that cannot be
// meant: a departure of more than maxDeparture, a value that is no number, a
// spread that is not positive.
func (p *Place) Check(readings []Reading) error {
	var bad []error
	if !(p.Spread > 0) || math.IsInf(p.Spread, 0) {
		bad = append(bad, fmt.Errorf("spread of %g days: want more than 0, such as 11", p.Spread))
	}
	if !(p.Error >= 0) || math.IsInf(p.Error, 0) {
		bad = append(bad, fmt.Errorf("error of the typical day of %g days: want 0 (unknown) or more", p.Error))
	}
	for i, r := range readings {
		name := fmt.Sprintf("reading %d of %d", i+1, len(readings))
		if !(r.Day > -season.YearDays && r.Day < 2*season.YearDays+1) {
			bad = append(bad, fmt.Errorf("%s: day %g is no day of a year; want 1 to 366", name, float64(r.Day)))
			continue
		}
		normal := p.normalAt(r.Day)
		if off := r.Soil.Sub(normal); !(off >= -maxDeparture && off <= maxDeparture) {
			bad = append(bad, fmt.Errorf("%s: %v on %v is %+.1f K off the normal %v; want at most %.0f K either way: is it in °C, from the map's depth, and from this day?",
				name, r.Soil, r.Day, float64(off), normal, float64(maxDeparture)))
		}
	}
	return errors.Join(bad...)
}

// normalAt returns the normal at a moment.
func (p *Place) normalAt(d season.Day) units.Celsius { return units.Celsius(p.Normal.At(d)) }
