package surface

import (
	"fmt"
	"io"
	"strings"

	"weekband/grid"
	"weekband/grid/units"
)

// Limits of what is believed: the Dead Sea shore lies at −430 m, Mount
// Everest at 8,849 m (from memory); monthly means as grids have them.
const (
	lowest, highest  = -500, 9000
	coldest, hottest = -90, 60
	widest           = 40
)

// Text is a file to decode and its name for messages.
type Text struct {
	io.Reader
	Name string
}

// Decode reads two CSV files: sites with the columns id, name, lat, lon and
// elev_m, and values with id, month, tavg_c and, if there, std_c. Columns are
// found by their names; others are passed over. Positions are degrees, north
// and east positive; elevations metres; months 1 to 12; temperatures °C.
//
// Sites that have not all twelve months are left out, values of unknown sites
// passed over, and sites at the same place joined; Notes count them. It
// returns all mistakes of both files, each with file and line: a number that
// cannot be read or believed, an id or a month given twice.
func Decode(sites, values Text) (*Stations, error) {
	var wrong mistakes
	s := &Stations{}
	index, err := s.readSites(sites, &wrong)
	if err == nil {
		err = s.readValues(values, index, &wrong)
	}
	if err != nil {
		wrong.add("%w", err)
	}
	if err := wrong.err(); err != nil {
		return nil, err
	}
	s.merge()
	if len(s.List) == 0 {
		return nil, fmt.Errorf("%s: no station has values for all twelve months in %s", sites.Name, values.Name)
	}
	return s, nil
}

// readSites fills the list and returns where each id stands.
func (s *Stations) readSites(in Text, wrong *mistakes) (map[string]int, error) {
	t, err := openTable(in, in.Name, []string{"id", "lat", "lon", "elev_m"}, wrong)
	if err != nil {
		return nil, err
	}
	index, lines := map[string]int{}, map[string]int{}
	for {
		ok, err := t.next()
		if !ok {
			return index, err
		}
		id := strings.Clone(t.text("id"))
		if before, twice := lines[id]; twice {
			wrong.add("%s:%d: id %q is already on line %d; an id names one station", t.name, t.line(), id, before)
			continue
		}
		lines[id] = t.line()
		if id == "" {
			wrong.add("%s:%d: the id is empty", t.name, t.line())
			continue
		}
		lat, ok1 := t.number("lat", -90, 90)
		lon, ok2 := t.number("lon", -180, 180)
		elev, ok3 := t.number("elev_m", lowest, highest)
		if ok1 && ok2 && ok3 {
			index[id] = len(s.List)
			s.List = append(s.List, Station{ID: id, Name: strings.Clone(t.text("name")), At: grid.LonLat{Lon: lon, Lat: lat}, Elevation: elev})
		} else {
			index[id] = -1 // its values are not values of an unknown site
		}
	}
}

// year marks the months of one station that were read.
type year struct{ mean, sd [12]bool }

func full(months [12]bool) bool {
	return months == [12]bool{true, true, true, true, true, true, true, true, true, true, true, true}
}

// readValues gives the stations their normals and drops those without twelve.
func (s *Stations) readValues(in Text, index map[string]int, wrong *mistakes) error {
	t, err := openTable(in, in.Name, []string{"id", "month", "tavg_c"}, wrong)
	if err != nil {
		return err
	}
	years := make([]year, len(s.List))
	unknown, example := 0, ""
	for {
		ok, err := t.next()
		if err != nil {
			return err
		}
		if !ok {
			break
		}
		i, known := index[t.text("id")]
		if !known {
			unknown++
			if example == "" {
				example = fmt.Sprintf("%s:%d: %q", t.name, t.line(), t.text("id"))
			}
		} else if i >= 0 {
			s.List[i].take(t, &years[i])
		}
	}
	if unknown > 0 {
		s.Notes = append(s.Notes, fmt.Sprintf("%s of sites that are not in the list passed over (the first at %s)", count(unknown, "value"), example))
	}
	s.keepFull(years)
	return nil
}

// take reads one row of values into a station. An empty temperature is a
// missing month.
func (st *Station) take(t *table, y *year) {
	month, ok := t.number("month", 1, 12)
	m := int(month) - 1
	switch {
	case !ok:
		return
	case month != float64(m+1):
		t.wrong.add("%s:%d: month %q; want 1 to 12", t.name, t.line(), t.text("month"))
		return
	case y.mean[m]:
		t.wrong.add("%s:%d: month %d of %q is given twice", t.name, t.line(), m+1, st.ID)
		return
	case t.text("tavg_c") == "":
		return
	}
	mean, ok := t.number("tavg_c", coldest, hottest)
	if !ok {
		return
	}
	st.Mean[m], y.mean[m] = units.Celsius(mean), true
	if t.text("std_c") == "" {
		return
	}
	if sd, ok := t.number("std_c", 0, widest); ok {
		st.SD[m], y.sd[m] = units.Delta(sd), true
	}
}

// keepFull drops stations without a full year.
func (s *Stations) keepFull(years []year) {
	kept, dropped, example := s.List[:0], 0, ""
	for i, st := range s.List {
		if !full(years[i].mean) {
			if dropped == 0 {
				example = st.ID
			}
			dropped++
			continue
		}
		st.HasSD = full(years[i].sd)
		kept = append(kept, st)
	}
	s.List = kept
	if dropped > 0 {
		s.Notes = append(s.Notes, fmt.Sprintf("%s without values for all twelve months left out (the first is %s)", count(dropped, "station"), example))
	}
}
