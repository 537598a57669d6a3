package shift

import (
	"math"

	"weekband/grid/classes"
	"weekband/grid/crossing"
	"weekband/grid/season"
)

// Sum is how a whole window moved, weighted by area.
type Sum struct {
	Km2      float64               // with normals in either
	FateKm2  [len(Fates)]float64   // by what became of it; Nothing is 0
	OtherKm2 float64               // of Undated: for another reason than before
	WeeksKm2 [season.Weeks]float64 // of Moved, by weeks later, from −26 on: At finds one

	// The days by which a tenth, half and nine tenths of the Moved ground come
	// later at most, and the extremes; earlier is negative. Zero without such
	// ground.
	P10, Median, P90 float64
	Earliest, Latest float64
}

// Sum adds the field up.
func (f *Field) Sum() Sum {
	var s Sum
	for fate, km2 := range f.Fate.Areas() {
		s.Km2 += km2
		s.FateKm2[fate] += km2
	}
	for weeks, km2 := range f.Weeks.Areas() {
		s.WeeksKm2[int(weeks)+season.Weeks/2] += km2
	}
	for was, row := range f.ReasonKm2 {
		for is, km2 := range row {
			if was != is && fateOf(crossing.Reason(was), crossing.Reason(is)) == Undated {
				s.OtherKm2 += km2
			}
		}
	}
	if q := classes.Quantiles(f.Days, 0, 0.1, 0.5, 0.9, 1); q != nil {
		s.Earliest, s.P10, s.Median, s.P90, s.Latest = q[0], q[1], q[2], q[3], q[4]
	}
	return s
}

// At returns the area in km² that came a number of weeks later, −26 to 25.
func (s *Sum) At(weeks int) float64 { return s.WeeksKm2[weeks+season.Weeks/2] }

// Turned returns the areas in km² whose week is an earlier one, the same, and
// a later one.
func (s *Sum) Turned() (earlier, same, later float64) {
	for i, km2 := range s.WeeksKm2 {
		switch weeks := i - season.Weeks/2; {
		case weeks < 0:
			earlier += km2
		case weeks == 0:
			same += km2
		default:
			later += km2
		}
	}
	return earlier, same, later
}

// TurnedByDays reports whether some ground has another week although half of
// the ground moved by less than half a week.
func (s *Sum) TurnedByDays() bool {
	earlier, _, later := s.Turned()
	return earlier+later > 0 && math.Abs(s.Median) < week/2
}

// Same reports whether nothing moved at all: every cell has the day, or the
// reason for none, that it had.
func (s *Sum) Same() bool {
	return math.Max(-s.Earliest, s.Latest) == 0 && s.OtherKm2 == 0 &&
		s.FateKm2[Gained]+s.FateKm2[Lost]+s.FateKm2[OnlyBefore]+s.FateKm2[OnlyAfter] == 0
}
