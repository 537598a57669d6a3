package worth_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/worth"
)

// An Ending finds the last moment at which a Season, filled from every day, is
// worth its floor: within 0.02 days, or else, where worth hardly falls, where
// it is within 3e-4 of the floor, and 5e-4 for half-lives under ten days; of
// that the Season has 1e-4 and 2e-4. Where less than a fiftieth of the weeds come up before the
// year ends nothing is promised.
func TestEndingAgainstSeason(t *testing.T) {
	rng := rand.New(rand.NewPCG(96, 365))
	var e worth.Ending
	var s worth.Season
	found, none := 0, 0
	for n := range 4000 {
		q := ask(rng, n%20 == 0)
		q.fill(&s)
		want, wantOK := q.scan(&s)
		got, ok := q.ending(&e)
		hair := 3e-4
		if q.treatment.HalfLife < 10 {
			hair = 5e-4
		}
		switch {
		case q.comeUp() < 0.02:
		case ok && wantOK:
			found++
			if math.Abs(got-want) > 0.02 && math.Abs(s.At(got)-q.floor) > hair {
				t.Errorf("%d, %v: %v, the season has %v; worth %.5f", n, &q, got, want, s.At(got))
			}
		case ok && s.At(got) < q.floor-hair:
			t.Errorf("%d, %v: %v, where the season is worth %.5f", n, &q, got, s.At(got))
		case wantOK && s.At(max(want-1, q.from)) > q.floor+hair:
			t.Errorf("%d, %v: none, the season has %v", n, &q, want)
		default:
			none++
		}
	}
	if found < 2800 || none < 300 {
		t.Errorf("%d have an end and %d have none: too few to tell", found, none)
	}
}

// Where an Ending finds worth at a floor it is there by the plain sums of its
// definition too: within 2e-4, and 2e-3 for a half-life of a day and a half.
func TestEndingAgainstTheDefinition(t *testing.T) {
	var e worth.Ending
	checked := 0
	for _, p := range places {
		for _, treatment := range append(treatments, worth.Treatment{HalfLife: 1.5, Q10: 2}) {
			var c curve.Curve // places are sinusoids with a second harmonic: a sum over days finds them
			for i, v := range p.year {
				c.Mean += v / season.YearDays
				for k := range 2 {
					x := 2 * math.Pi * float64((k+1)*i) / season.YearDays
					c.Cos[k] += 2 * v * math.Cos(x) / season.YearDays
					c.Sin[k] += 2 * v * math.Sin(x) / season.YearDays
				}
			}
			var q asked
			q.follow(&c)
			if !q.set(p.trigger) { // never that cold; the season is there all the same
				q.from = 0
			}
			q.treatment, q.spread = treatment, 0
			oracle := newSlow(p.year, p.trigger.Direction, q.origin, treatment)
			hair := 2e-4
			if treatment.HalfLife < 5 {
				hair = 2e-3
			}
			for _, q.floor = range []float64{0.1, 0.25, 0.6} {
				days, ok := q.ending(&e)
				if !ok {
					continue
				}
				checked++
				k := math.Floor(days * hours)
				before, after := oracle.at(k/hours, 0), oracle.at((k+1)/hours, 0)
				if at := before + (days*hours-k)*(after-before); math.Abs(at-q.floor) > hair {
					t.Errorf("%s, %v: %v, where worth is %.5f by definition", p.name, &q, days, at)
				}
			}
		}
	}
	if checked < 100 {
		t.Errorf("only %d have an end", checked)
	}
}

// What an Ending was asked before changes nothing, and it asks for no memory.
func TestEndingRemembersNothing(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 5))
	var used worth.Ending
	for range 1500 {
		q := ask(rng, false)
		var fresh worth.Ending
		a, aOK := q.ending(&used)
		b, bOK := q.ending(&fresh)
		if a != b || aOK != bOK {
			t.Fatalf("%v: %v (%v), fresh %v (%v)", &q, a, aOK, b, bOK)
		}
	}
	q := years()[0]
	if n := testing.AllocsPerRun(100, func() { q.ending(&used) }); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

// Without weeds there is no end, nor for a treatment that is gone at once; a
// floor of 0 holds to the end of the season; and where a floor is met from the
// start on the end comes no later than where it is lower.
func TestEndingAtTheEdges(t *testing.T) {
	var e worth.Ending
	var cold asked
	cold.trigger, cold.origin, cold.treatment, cold.spread, cold.floor = spring, 1, worth.Usual(worth.Medium), 11, 0.25
	if days, ok := cold.ending(&e); ok {
		t.Errorf("in a year without weeds: %v", days)
	}
	for _, q := range years()[:50] {
		q.floor = 0
		if days, ok := q.ending(&e); !ok || days != season.YearDays {
			t.Errorf("%v: %v (%v)", &q, days, ok)
		}
		later := math.Inf(1)
		for _, q.floor = range []float64{0.001, 0.01, 0.2, 0.4, 0.6, 0.8, 0.99, 1} {
			days, ok := q.ending(&e)
			if !ok {
				days = q.from
			}
			if days > later || days < q.from {
				t.Errorf("%v: %v, for a lower floor %v", &q, days, later)
			}
			later = days
		}
		q.floor, q.treatment = 0.25, worth.Treatment{}
		if days, ok := q.ending(&e); ok {
			t.Errorf("%v: %v", &q, days)
		}
	}
}

// BenchmarkEnding is what a cell of a map costs, one of many.
func BenchmarkEnding(b *testing.B) {
	all := years()
	var e worth.Ending
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		all[i].ending(&e)
		i = (i + 1) % len(all)
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "cells/s")
}

// BenchmarkSeasonEnding is what it costs by a Season.
func BenchmarkSeasonEnding(b *testing.B) {
	all := years()
	var s worth.Season
	i := 0
	for b.Loop() {
		q := &all[i]
		q.fill(&s)
		s.LastAbove(q.floor, q.from)
		i = (i + 1) % len(all)
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "cells/s")
}
