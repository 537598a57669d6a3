package surface

import (
	"fmt"

	"weekband/grid/table"
	"weekband/grid/table/sites"
	"weekband/grid/units"
)

// Text is a file to decode and its name for messages.
type Text = table.Text

// Decode reads two CSV files: sites with the columns id, name, lat, lon and
// elev_m, and values with id, month, tavg_c and, if there, std_c. Columns are
// found by their names; others are passed over. Positions are degrees, north
// and east positive; elevations metres; months 1 to 12; temperatures °C.
//
// Sites that have not all twelve months are left out, values of unknown sites
// passed over, and sites at the same place joined; Notes count them. It
// returns all mistakes of both files, each with file and line: a number that
// cannot be read or believed, an id or a month given twice.
func Decode(in, values Text) (*Stations, error) {
	var wrong table.Mistakes
	s := &Stations{}
	list, err := sites.Read(in, &wrong)
	if err == nil {
		err = s.readValues(values, list, &wrong)
	}
	if err := wrong.Join(err); err != nil {
		return nil, err
	}
	s.Notes = append(wrong.Notes(), s.Notes...)
	s.merge()
	if len(s.List) == 0 {
		return nil, fmt.Errorf("%s: no station has values for all twelve months in %s", in.Name, values.Name)
	}
	return s, nil
}

// year marks the months of one station that were read.
type year struct{ mean, sd [12]bool }

func full(months [12]bool) bool {
	return months == [12]bool{true, true, true, true, true, true, true, true, true, true, true, true}
}

// readValues gives the sites their normals and keeps those with all twelve.
func (s *Stations) readValues(in Text, list *sites.List, wrong *table.Mistakes) error {
	t, err := table.Open(in, table.Form{Need: []string{"id", "month", "tavg_c"}, Want: "id,month,tavg_c,std_c"}, wrong)
	if err != nil {
		return err
	}
	for _, site := range list.Sites {
		s.List = append(s.List, Station{ID: site.ID, Name: site.Name, At: site.At, Elevation: site.Elevation})
	}
	years := make([]year, len(s.List))
	id, cols := t.Find("id"), columns{month: t.Find("month"), mean: t.Find("tavg_c"), sd: t.Find("std_c")}
	for t.Next() {
		if i, ok := list.Of(t, id); ok {
			s.List[i].take(t, cols, &years[i])
		}
	}
	if n, first := list.Strangers(); n > 0 {
		s.Notes = append(s.Notes, fmt.Sprintf("%s of sites that are not in the list passed over (the first at %s)", units.Count(n, "value"), first))
	}
	s.keepFull(years)
	return nil
}

// columns says where the values stand.
type columns struct{ month, mean, sd table.Column }

// What is believed; monthly means as grids have them.
var (
	monthNumber = table.Number{Low: 1, High: 12, Whole: true, Hint: "January is 1"}
	meanNumber  = table.Number{Low: -90, High: 60, Unit: "°C", Optional: true, Hint: "is it °F, or a missing value? convert it to °C, or leave the field empty"}
	sdNumber    = table.Number{Low: 0, High: 40, Unit: "K", Optional: true, Hint: "leave the field empty where there is no value"}
)

// take reads one row of values into a station. An empty temperature is a
// missing month.
func (st *Station) take(t *table.Table, cols columns, y *year) {
	month, ok := t.Number(cols.month, monthNumber)
	if !ok {
		return
	}
	m := int(month) - 1
	if y.mean[m] {
		t.Fault("month %d of %q is given twice; want it once", m+1, st.ID)
		return
	}
	mean, ok := t.Number(cols.mean, meanNumber)
	if !ok {
		return
	}
	st.Mean[m], y.mean[m] = units.Celsius(mean), true
	if sd, ok := t.Number(cols.sd, sdNumber); ok {
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
		s.Notes = append(s.Notes, fmt.Sprintf("%s without values for all twelve months left out (the first is %s)", units.Count(dropped, "station"), example))
	}
}
