package series

import (
	"fmt"
	"slices"
	"strings"

	"weekband/grid"
)

// Limits of what is believed. The Dead Sea shore lies at −430 m, Mount Everest
// at 8,849 m; air has been as cold as −89 °C and bare ground as hot as 80 °C;
// no month had more than 9,300 mm of rain (all from memory).
const (
	lowest, highest  = -500, 9000
	coldest, hottest = -90, 80
	wettest          = 10000
)

// Decode reads two CSV files: sites with the columns id, lat, lon, elev_m and,
// if there, name; and values with id, date, air_c (or tmean_air_c), one column
// soil<N>_c for each depth of N cm, and, if there, precip_mm. Columns are found
// by their names in any order; others are passed over. Positions are degrees,
// north and east positive; elevations metres; temperatures means in °C,
// precipitation sums in mm. A date is 2010-05-17 for the mean of a day or
// 2010-05 for that of a month, the same kind in the whole file. An empty field
// is a missing value. Rows may come in any order.
//
// Values of sites that are not in the list are passed over, and sites without
// both air and soil left out; Notes count them. Decode returns all mistakes of
// both files, each with file and line: a number or date that cannot be read or
// believed, an id or a date given twice.
func Decode(sites, values Text) (*Network, error) {
	var wrong mistakes
	n := &Network{}
	index, err := n.readSites(sites, &wrong)
	if err != nil {
		return nil, err
	}
	if err := n.readValues(values, index, &wrong); err != nil {
		if before := wrong.err(sites.Name, values.Name); before != nil {
			return nil, fmt.Errorf("%w\n%w", before, err)
		}
		return nil, err
	}
	if err := wrong.err(sites.Name, values.Name); err != nil {
		return nil, err
	}
	n.keepPaired()
	if len(n.List) == 0 {
		return nil, fmt.Errorf("%s: no station of %s has both air and soil temperatures", values.Name, sites.Name)
	}
	return n, nil
}

const wantSites = "id,name,lat,lon,elev_m"

// siteReader reads the list of sites.
type siteReader struct {
	t                          *table
	id, name, lat, lon, height int
	lines                      map[string]int
}

// readSites fills the list and returns where each id stands; -1 for a site
// with a mistake.
func (n *Network) readSites(text Text, wrong *mistakes) (map[string]int, error) {
	t, err := openTable(text, wrong, wantSites)
	if err != nil {
		return nil, err
	}
	r := siteReader{t: t, name: slices.Index(t.head, "name"), lines: map[string]int{}}
	for _, c := range []struct {
		name string
		at   *int
	}{{"id", &r.id}, {"lat", &r.lat}, {"lon", &r.lon}, {"elev_m", &r.height}} {
		if *c.at, err = t.need(c.name, wantSites); err != nil {
			return nil, err
		}
	}
	index := map[string]int{}
	for {
		ok, err := t.next()
		if !ok {
			return index, err
		}
		id, ok := r.newID()
		if !ok {
			continue
		}
		index[id] = -1
		if s, ok := r.site(id); ok {
			index[id] = len(n.List)
			n.List = append(n.List, s)
		}
	}
}

// newID returns the id of the current row; ok is false when there is none or
// it was there before.
func (r *siteReader) newID() (id string, ok bool) {
	id = strings.Clone(r.t.text(r.id))
	if before, twice := r.lines[id]; twice {
		r.t.fault("id %q is already on line %d; an id names one station", id, before)
		return "", false
	}
	r.lines[id] = r.t.line()
	if id == "" {
		r.t.fault("the id is empty; want a name for the station's values")
		return "", false
	}
	return id, true
}

func (r *siteReader) site(id string) (s Station, ok bool) {
	lat, ok1 := r.t.number(r.lat, -90, 90)
	lon, ok2 := r.t.number(r.lon, -180, 180)
	height, ok3 := r.t.number(r.height, lowest, highest)
	s = Station{ID: id, Name: strings.Clone(r.t.text(r.name)), At: grid.LonLat{Lon: lon, Lat: lat}, Elevation: height}
	return s, ok1 && ok2 && ok3
}

// readValues gives the stations their series.
func (n *Network) readValues(text Text, index map[string]int, wrong *mistakes) error {
	t, err := openTable(text, wrong, wantValues)
	if err != nil {
		return err
	}
	cols, err := findColumns(t)
	if err != nil {
		return err
	}
	in := intake{t: t, cols: cols, rows: make([]rows, len(n.List)), index: index}
	for {
		ok, err := t.next()
		if err != nil {
			return err
		}
		if !ok {
			break
		}
		in.take()
	}
	n.Depths, n.Monthly = cols.depths, in.kind == monthly
	for i := range n.List {
		n.List[i].Monthly = n.Monthly
		in.rows[i].place(&n.List[i], &in)
	}
	if len(cols.strange) > 0 {
		n.Notes = append(n.Notes, fmt.Sprintf("%s: passed over %s; a soil column is named like soil10_c", t.name, strings.Join(cols.strange, ", ")))
	}
	if in.unknown > 0 {
		n.Notes = append(n.Notes, fmt.Sprintf("%s of sites that are not in the list passed over (the first at %s)", count(in.unknown, "row"), in.example))
	}
	return nil
}

// keepPaired drops stations without both air and soil.
func (n *Network) keepPaired() {
	kept, dropped, example := n.List[:0], 0, ""
	for _, s := range n.List {
		soil := 0
		for i := range s.Soil {
			soil += s.Soil[i].Count()
		}
		if soil > 0 && s.Air.Count() > 0 {
			kept = append(kept, s)
			continue
		}
		if dropped == 0 {
			example = s.ID
		}
		dropped++
	}
	n.List = kept
	if dropped > 0 {
		n.Notes = append(n.Notes, fmt.Sprintf("%s without both air and soil temperatures left out (the first is %s)", count(dropped, "station"), example))
	}
}
