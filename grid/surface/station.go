package surface

import (
	"fmt"
	"math"

	"weekband/grid"
	"weekband/grid/units"
)

// Station is one place where temperature is measured, with its normals.
type Station struct {
	ID, Name  string
	At        grid.LonLat
	Elevation float64           // m above sea level
	Mean      [12]units.Celsius // monthly normals, January first
	SD        [12]units.Delta   // year-to-year standard deviation of the monthly means
	HasSD     bool              // SD holds all twelve months
}

// Stations is a set of stations at different places.
type Stations struct {
	List  []Station
	Notes []string // what was left out or joined, for the user
}

// merge joins stations at the same place, within 1e-4° (about 10 m): one
// thermometer under two names would otherwise count twice. Normals and
// elevations are averaged; the first id stays. SD stays when all have it.
func (s *Stations) merge() {
	type place struct{ lon, lat int }
	at := map[place][]int{}
	var order []place
	for i, st := range s.List {
		p := place{int(math.Round(st.At.Lon * 1e4)), int(math.Round(st.At.Lat * 1e4))}
		if at[p] == nil {
			order = append(order, p)
		}
		at[p] = append(at[p], i)
	}
	if len(order) == len(s.List) {
		return
	}
	joined, example := 0, ""
	out := make([]Station, 0, len(order))
	for _, p := range order {
		group := at[p]
		if len(group) > 1 {
			joined += len(group) - 1
			if example == "" {
				example = s.List[group[0]].ID + " and " + s.List[group[1]].ID
			}
		}
		out = append(out, average(s.List, group))
	}
	s.List = out
	s.Notes = append(s.Notes, fmt.Sprintf("%s joined with another at the same place, normals and elevations averaged (%s)", units.Count(joined, "station"), example))
}

// average returns the first station of a group with the group's mean normals
// and elevation.
func average(list []Station, group []int) Station {
	a := list[group[0]]
	n := float64(len(group))
	if len(group) == 1 {
		return a
	}
	a.Mean, a.SD, a.Elevation = [12]units.Celsius{}, [12]units.Delta{}, 0
	for _, i := range group {
		b := &list[i]
		a.Elevation += b.Elevation / n
		a.HasSD = a.HasSD && b.HasSD
		for m := range 12 {
			a.Mean[m] += b.Mean[m] / units.Celsius(n)
			a.SD[m] += b.SD[m] / units.Delta(n)
		}
	}
	return a
}
