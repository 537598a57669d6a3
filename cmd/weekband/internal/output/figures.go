package output

import (
	"weekband/grid/classes"
	"weekband/grid/crossing"
	"weekband/grid/season"
	"weekband/grid/weeks"
)

// Figures sum up a window over the whole grid.
type Figures struct {
	WeeksKm2  [season.Weeks + 1]float64      // by the week of the crossing
	OtherKm2  [len(crossing.Reasons)]float64 // by reason
	Quantiles []float64                      // 10, 50 and 90 % of the ground that crosses, unwrapped; nil without any
	Expected  float64                        // error of the typical day, days; 0 when not known
	BeyondKm2 float64                        // beyond the reach of calibration stations
}

// LandKm2 returns the area of all ground with normals.
func (f *Figures) LandKm2() (sum float64) {
	for reason, km2 := range f.OtherKm2 {
		if crossing.Reason(reason) != crossing.NoData {
			sum += km2
		}
	}
	return sum
}

// FiguresOf sums up fields that hold all cells.
func FiguresOf(fields []*weeks.Field) (all []Figures) {
	for _, f := range fields {
		all = append(all, Figures{
			WeeksKm2: f.Histogram(), OtherKm2: f.AreaOf(), Quantiles: classes.Quantiles(f.Day, 0.1, 0.5, 0.9),
			Expected: f.Expected(), BeyondKm2: f.Beyond(),
		})
	}
	return all
}
