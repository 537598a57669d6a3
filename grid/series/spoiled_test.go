package series_test

import (
	"slices"
	"testing"
	"time"

	"weekband/grid/series"
	"weekband/grid/units"
)

func clone(n *network) *series.Network {
	c := &series.Network{Depths: n.Depths, List: slices.Clone(n.List)}
	for i := range c.List {
		s := &c.List[i]
		s.Air = copyOf(s.Air)
		s.Soil = slices.Clone(s.Soil)
		for k := range s.Soil {
			s.Soil[k] = copyOf(s.Soil[k])
		}
	}
	return c
}

func copyOf(v series.Values) series.Values {
	return series.Values{Vals: slices.Clone(v.Vals), Has: slices.Clone(v.Has)}
}

// The rules find nothing wrong with real stations, so they must find what is
// done to them: how many of the 77 are noticed, at 10 cm.
func TestCleanFindsWhatIsDoneToReferenceStations(t *testing.T) {
	n := reference(t)
	after := series.NewDate(2017, time.January, 1)
	shift := func(by float32) func(*series.Station) {
		return func(s *series.Station) {
			v := &s.Soil[n.ten]
			for i := max(0, int(after-s.First)); i < s.Len(); i++ {
				if v.Has[i] {
					v.Vals[i] += by
				}
			}
		}
	}
	for name, c := range map[string]struct {
		spoil func(s *series.Station)
		kinds []series.Kind
		least int
	}{
		"air and soil swapped": {func(s *series.Station) { s.Air, s.Soil[n.ten] = s.Soil[n.ten], s.Air }, []series.Kind{series.Swapped}, 77},
		"soil copied from air": {func(s *series.Station) { s.Soil[n.ten] = copyOf(s.Air) }, []series.Kind{series.Same}, 77},
		"depths swapped":       {func(s *series.Station) { s.Soil[0], s.Soil[1] = s.Soil[1], s.Soil[0] }, []series.Kind{series.Depths}, 72},
		"soil in °F": {func(s *series.Station) {
			for i, v := range s.Soil[n.ten].Vals {
				if s.Soil[n.ten].Has[i] {
					s.Soil[n.ten].Vals[i] = float32(units.Celsius(v).Fahrenheit())
				}
			}
		}, []series.Kind{series.Unit}, 77},
		"2 K warmer from 2017 on": {shift(2), []series.Kind{series.Step}, 65},
		"3 K colder from 2017 on": {shift(-3), []series.Kind{series.Step}, 70},
	} {
		spoiled, found := clone(n), 0
		for i := range spoiled.List {
			c.spoil(&spoiled.List[i])
		}
		for _, r := range spoiled.Clean(series.Rules{}) {
			if slices.ContainsFunc(r.Findings, func(f series.Finding) bool {
				return f.Sensor >= 0 && slices.Contains(c.kinds, f.Kind) && (f.Sensor == n.ten || f.Kind == series.Depths)
			}) {
				found++
			}
		}
		t.Logf("%s: %d of %d stations noticed", name, found, len(spoiled.List))
		if found < c.least {
			t.Errorf("%s: %d of %d stations noticed, want %d", name, found, len(spoiled.List), c.least)
		}
	}
}
