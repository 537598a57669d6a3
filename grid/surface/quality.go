package surface

import (
	"cmp"
	"math"
	"slices"
)

// Rules of the check of stations.
const (
	// FlagAt is the number of standard errors at which a station is listed.
	FlagAt = 4
	// GrossAt is the number at which it is left out. Of 5,743 national
	// stations one is past it, at 10; all others stay below 6, summits and
	// city roofs among them.
	GrossAt = 8
	// HeightBound is how many metres a station may lie above or below all
	// terrain within 7 km before it is listed. It is not left out for that:
	// terrains are means over cells.
	HeightBound = 300

	rounds = 3 // a gross station spoils its neighbours; they are judged again without it
)

// Suspect is a station that does not fit.
type Suspect struct {
	Station Station
	// Worst is the month, 0 for January, in which the station lies farthest
	// from what its neighbours say; Error the prediction less its value, K,
	// and Score the same in standard errors.
	Worst        int
	Error, Score float64
	// AboveTerrain is how many metres the station lies above the highest
	// ground within 7 km, negative for below the lowest; 0 in between.
	AboveTerrain float64
	LeftOut      bool
}

// check judges the stations, leaves gross ones out unless they are to be
// kept, and reports.
func (m *Model) check(land *Land, opts Options) (*Report, error) {
	var out []Suspect
	all := m.leaveOut()
	m.setSill(all)
	for range rounds {
		gross := m.gross(all)
		if opts.KeepAll || len(gross) == 0 {
			break
		}
		drop := make([]bool, len(m.net.list))
		for _, i := range gross {
			s := m.suspect(i, &all[i], land)
			s.LeftOut, drop[i] = true, true
			out = append(out, s)
		}
		var kept []Station
		for i, st := range m.net.list {
			if !drop[i] {
				kept = append(kept, st)
			}
		}
		if err := m.connect(kept, land, opts); err != nil {
			return nil, err
		}
		all = m.leaveOut()
		m.setSill(all)
	}
	for i := range all {
		s := m.suspect(i, &all[i], land)
		if math.Abs(s.Score) >= FlagAt || math.Abs(s.AboveTerrain) > HeightBound {
			out = append(out, s)
		}
	}
	slices.SortFunc(out, func(a, b Suspect) int {
		return cmp.Or(cmp.Compare(math.Abs(b.Score), math.Abs(a.Score)), cmp.Compare(a.Station.ID, b.Station.ID))
	})
	m.reachKm = m.reach()
	return m.report(all, out, land), nil
}

// gross returns the stations past the bound that are the farthest out among
// their own eight neighbours.
func (m *Model) gross(all []left) (out []int) {
	worst := make([]float64, len(all))
	for i := range all {
		for _, z := range m.score(&all[i]) {
			worst[i] = max(worst[i], math.Abs(z))
		}
	}
	for i, z := range worst {
		if z < GrossAt {
			continue
		}
		near, _ := m.net.index.nearest(m.net.places[i], 8, i)
		if !slices.ContainsFunc(near, func(j int) bool { return worst[j] > z }) {
			out = append(out, i)
		}
	}
	return out
}

// suspect tells how a station fits.
func (m *Model) suspect(i int, l *left, land *Land) Suspect {
	s := Suspect{Station: m.net.list[i]}
	for q, z := range m.score(l) {
		if math.Abs(z) > math.Abs(s.Score) {
			s.Worst, s.Score, s.Error = q, z, l.err[q]
		}
	}
	if land != nil {
		if a, ok := land.at(s.Station.At); ok {
			s.AboveTerrain = max(0, s.Station.Elevation-a.high) + min(0, s.Station.Elevation-a.low)
		}
	}
	return s
}

// reach returns the median distance to the farthest station of a
// neighbourhood, km, over a sample of the stations.
func (m *Model) reach() float64 {
	n := len(m.net.list)
	var all []float64
	for i := 0; i < n; i += max(1, n/200) {
		_, km := m.net.index.nearest(m.net.places[i], m.net.k, -1)
		all = append(all, km)
	}
	slices.Sort(all)
	return all[len(all)/2]
}
