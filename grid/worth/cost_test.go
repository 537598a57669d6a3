package worth_test

import (
	"fmt"
	"math"
	"testing"

	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/grid/worth"
)

func ExampleSeason_Costs() {
	var s worth.Season
	s.FillWith(midwest(), spring, 24, worth.Usual(worth.Medium), 11)
	c := s.Costs(worth.Borders{AheadFrom: 73, OntimeFrom: 94, OntimeTo: 120, CatchupTo: 150})
	for _, one := range []worth.Cost{c.AheadFrom, c.OntimeTo, c.CatchupTo} {
		fmt.Printf("%v: stops %.0f %%, %.0f %% of the best; %.0f %% are up\n", one.Day, 100*one.Worth, 100*one.OfBest, 100*one.Emerged)
	}
	fmt.Printf("best on %v: %.0f %%\n", c.Best.Day, 100*c.Best.Worth)
	// Output:
	// Mar 14: stops 56 %, 74 % of the best; 0 % are up
	// Apr 30: stops 71 %, 93 % of the best; 0 % are up
	// May 30: stops 62 %, 81 % of the best; 15 % are up
	// best on May 14: 76 %
}

// The borders of a calendar convert, and every cost is the season's worth at
// its day, in a warming season that begins the year before, in the southern
// hemisphere and in a cooling one over New Year.
func TestCostsAtTheBorders(t *testing.T) {
	for _, p := range append(places, struct {
		name    string
		year    *curve.Year
		trigger crossing.Trigger
	}{"cooling over New Year", wave(24, 9, 60), crossing.Trigger{Level: 22, Direction: crossing.Cooling}}) {
		c := crossing.Find(p.year, p.trigger)
		if !c.Reason.Crosses() {
			t.Fatalf("%s has no crossing", p.name)
		}
		var s worth.Season
		s.FillWith(p.year, p.trigger, c.Origin, worth.Usual(worth.Medium), 11)
		onset := c.Origin.DaysTo(c.Day)
		cal := status.Calendar{AheadFrom: c.Day - 60, OntimeFrom: c.Day - 30, OntimeTo: c.Day, CatchupTo: c.Day + 40}
		costs := s.Costs(worth.Borders(cal))
		for _, k := range []struct {
			cost worth.Cost
			days float64
		}{
			{costs.AheadFrom, onset - 60}, {costs.OntimeFrom, onset - 30}, {costs.OntimeTo, onset},
			{costs.TwoWeeksLate, onset + 14}, {costs.CatchupTo, onset + 40},
		} {
			if want := c.Day + season.Day(k.days-onset); math.Abs(float64(k.cost.Day-want)) > 1e-9 {
				t.Errorf("%s: day %v, want %v", p.name, k.cost.Day, want)
			}
			if math.Abs(k.cost.Worth-s.At(k.days)) > 1e-9 || math.Abs(k.cost.OfBest*costs.Best.Worth-k.cost.Worth) > 1e-3 {
				t.Errorf("%s: %+v, worth is %v, best %v", p.name, k.cost, s.At(k.days), costs.Best.Worth)
			}
		}
		if half := costs.HalfUp; math.Abs(half.Emerged-0.5) > 1e-6 || math.Abs(half.Worth-s.At(onset+float64(half.Day-c.Day))) > 1e-9 {
			t.Errorf("%s: half of the weeds are up on %v: %+v", p.name, half.Day, half)
		}
		if costs.Best.OfBest != 1 || costs.Best.Worth < costs.OntimeTo.Worth {
			t.Errorf("%s: best %+v, on time ends with %+v", p.name, costs.Best, costs.OntimeTo)
		}
	}
}

func TestCostsWithoutASeason(t *testing.T) {
	var s worth.Season
	if c := s.Costs(worth.Borders{}); c.Best.Worth != 0 || c.OntimeTo.OfBest != 0 || c.OntimeTo.Emerged != 0 {
		t.Errorf("costs of no season: %+v", c)
	}
}
