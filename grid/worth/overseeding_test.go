package worth_test

import (
	"fmt"
	"math"
	"testing"

	"weekband/grid/season"
	"weekband/grid/worth"
)

func ExampleOverseeding_Within() {
	// Seed is broadcast on 20 May; on time runs from 4 to 30 April.
	o := worth.Overseeding{Day: season.Date(5, 20), Interval: worth.ReseedingInterval(worth.Short, worth.Broadcast)}
	k := o.Within(worth.Borders{AheadFrom: 73, OntimeFrom: 94, OntimeTo: 120, CatchupTo: 165})
	fmt.Printf("open until %v: ahead %.0f days, on time %.0f, lost %.0f\n", o.LastDay(), k.Ahead, k.Ontime, k.OntimeLost)
	// Output: open until Mar 25: ahead 11 days, on time 0, lost 26
}

// Weeks between an application in late April and seeding that left Kentucky
// bluegrass unharmed, Keeley and Zhou 2005 (Weed Technol. 19): 6, 8 and 14
// broadcast, 11, 10 and 16 slit. No default is shorter than that of the actives
// it stands for: half-lives in turf 35 and 23 days (Schleicher et al. 1995), and
// about 120 days (from memory: herbicide handbook).
func TestDefaultIntervalsHoldTheMeasuredOnes(t *testing.T) {
	for _, c := range []struct{ half, broadcast, slit float64 }{{worth.Short, 6, 11}, {23, 8, 10}, {120, 14, 16}} {
		for m, weeks := range map[worth.Method]float64{worth.Broadcast: c.broadcast, worth.Slit: c.slit} {
			if got := worth.ReseedingInterval(c.half, m); got < 7*weeks {
				t.Errorf("half-life %v, %v: %v days, measured %v weeks", c.half, m, got, weeks)
			}
		}
	}
	for _, m := range []worth.Method{worth.Broadcast, worth.Slit} {
		last := 0.0
		for half := 5.0; half < 400; half++ {
			got := worth.ReseedingInterval(half, m)
			if got < last {
				t.Errorf("%v: half-life %v needs %v days, a shorter one %v", m, half, got, last)
			}
			last = got
		}
	}
}

func TestOverseeding(t *testing.T) {
	northern := worth.Borders{AheadFrom: season.Date(3, 14), OntimeFrom: season.Date(4, 4), OntimeTo: season.Date(4, 30), CatchupTo: season.Date(6, 16)}
	autumn := worth.Borders{AheadFrom: season.Date(8, 1), OntimeFrom: season.Date(8, 22), OntimeTo: season.Date(9, 12), CatchupTo: season.Date(11, 1)}
	overNewYear := worth.Borders{AheadFrom: season.Date(12, 10), OntimeFrom: season.Date(12, 31), OntimeTo: season.Date(1, 20) + 365, CatchupTo: season.Date(3, 1) + 365}
	beforeNewYear := worth.Borders{AheadFrom: -21, OntimeFrom: 0, OntimeTo: 20, CatchupTo: 60} // the same, unwrapped the other way
	for _, c := range []struct {
		name                         string
		b                            worth.Borders
		day                          season.Day
		interval, young              float64
		from                         season.Day
		ahead, ontime, catchUp, lost float64
	}{
		{"seeding in September spares spring", northern, season.Date(9, 1), 98, 0, season.Date(5, 26), 21, 26, 26, 0},
		{"an autumn far off closes nothing", northern, season.Date(9, 15), 56, 0, season.Date(7, 21), 21, 26, 47, 0},
		{"late May cuts on time", northern, season.Date(6, 10), 56, 0, season.Date(4, 15), 21, 11, 0, 15},
		{"sown in early spring", northern, season.Date(4, 1), 56, 0, season.Date(2, 4), 0, 0, 16, 26},
		{"sown the week before ahead", northern, season.Date(3, 7), 56, 30, season.Date(1, 10), 0, 24, 47, 2},
		{"on the border to the hour", northern, season.Date(6, 25), 56, 0, season.Date(4, 30), 21, 26, 0, 0},
		{"autumn seed closes the autumn window", autumn, season.Date(9, 20), 77, 0, season.Date(7, 5), 0, 0, 0, 21},
		{"spring seed after an autumn window", autumn, season.Date(4, 1), 112, 0, season.Date(12, 10), 21, 21, 50, 0},
		{"a window over New Year", overNewYear, season.Date(3, 1), 50, 0, season.Date(1, 10) + 365, 21, 10, 0, 10},
		{"and seen from the new year", beforeNewYear, season.Date(3, 1), 50, 0, season.Date(1, 10), 21, 10, 0, 10},
		{"seed before New Year", overNewYear, season.Date(12, 20), 20, 12, season.Date(11, 30), 0, 19, 40, 1},
	} {
		o := worth.Overseeding{Day: c.day, Interval: c.interval, Young: c.young}
		k := o.Within(c.b)
		if k.ClosedFrom != c.from || k.Ahead != c.ahead || k.Ontime != c.ontime || k.CatchUp != c.catchUp || k.OntimeLost != c.lost {
			t.Errorf("%s: %+v (closed from %v)", c.name, k, k.ClosedFrom)
		}
		if k.Collides() != (c.lost > 0) {
			t.Errorf("%s: collides %v, %v days lost", c.name, k.Collides(), c.lost)
		}
		if got := o.LastDay(); math.Abs(float64(got-c.from.In())) > 1e-9 {
			t.Errorf("%s: last day %v, want %v", c.name, got, c.from)
		}
	}
}
