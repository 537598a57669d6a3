package series

import (
	"fmt"
	"strings"

	"weekband/grid/table"
	"weekband/grid/table/sites"
	"weekband/grid/units"
)

// Text is a CSV file to decode and its name for messages.
type Text = table.Text

// mostRows is how many values there may be: the days of 10,000 stations over
// 30 years.
const mostRows = 110_000_000

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
func Decode(in, values Text) (*Network, error) {
	var wrong table.Mistakes
	n := &Network{}
	list, err := sites.Read(in, &wrong)
	if err == nil {
		err = n.readValues(values, list, &wrong)
	}
	if err := wrong.Join(err); err != nil {
		return nil, err
	}
	n.Notes = append(wrong.Notes(), n.Notes...)
	n.keepPaired()
	if len(n.List) == 0 {
		return nil, fmt.Errorf("%s: no station of %s has both air and soil temperatures", values.Name, in.Name)
	}
	return n, nil
}

// readValues gives the sites their series.
func (n *Network) readValues(text Text, list *sites.List, wrong *table.Mistakes) error {
	t, err := table.Open(text, table.Form{Need: []string{"id", "date"}, Want: wantValues, Rows: mostRows}, wrong)
	if err != nil {
		return err
	}
	cols, err := findColumns(t)
	if err != nil {
		return err
	}
	in := intake{t: t, cols: cols, rows: make([]rows, len(list.Sites)), sites: list}
	for t.Next() {
		in.take()
	}
	n.Depths, n.Monthly = cols.depths, in.kind == monthly
	for i, site := range list.Sites {
		n.List = append(n.List, Station{ID: site.ID, Name: site.Name, At: site.At, Elevation: site.Elevation, Monthly: n.Monthly})
		in.rows[i].place(&n.List[i], &in)
	}
	if len(cols.strange) > 0 {
		n.Notes = append(n.Notes, fmt.Sprintf("%s: passed over %s; a soil column is named like soil10_c", text.Name, strings.Join(cols.strange, ", ")))
	}
	if rows, first := list.Strangers(); rows > 0 {
		n.Notes = append(n.Notes, fmt.Sprintf("%s of sites that are not in the list passed over (the first at %s)", units.Count(rows, "row"), first))
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
		n.Notes = append(n.Notes, fmt.Sprintf("%s without both air and soil temperatures left out (the first is %s)", units.Count(dropped, "station"), example))
	}
}
