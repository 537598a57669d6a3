package series

import (
	"weekband/grid/table"
	"weekband/grid/table/sites"
)

// What is believed: air has been as cold as −89 °C and bare ground as hot as
// 80 °C; no month had more than 9,300 mm of rain (all from memory).
const (
	coldest, hottest = -90, 80
	wettest          = 10000
)

var (
	temperature   = table.Number{Low: coldest, High: hottest, Unit: "°C", Optional: true, Hint: "leave the field empty where nothing was measured"}
	precipitation = table.Number{Low: 0, High: wettest, Unit: "mm", Optional: true, Hint: "leave the field empty where nothing was measured"}
)

// intake takes rows of values to their stations.
type intake struct {
	t     *table.Table
	cols  columns
	kind  step
	rows  []rows // by station
	sites *sites.List
}

// rows holds what was read of one station, in the order of the file: air, the
// soils and precipitation, width values to a row.
type rows struct {
	at   []int32 // ordinals
	line []int32
	vals []float32
	has  []bool
}

func (in *intake) width() int { return len(in.cols.soil) + 2 }

// take reads the current row.
func (in *intake) take() {
	i, ok := in.sites.Of(in.t, in.cols.id)
	if !ok {
		return
	}
	if at, ok := in.ordinal(); ok {
		in.rows[i].add(in, at)
	}
}

// ordinal reads the date of the current row; the first one settles whether
// the file is daily or monthly.
func (in *intake) ordinal() (int32, bool) {
	text := in.t.Text(in.cols.date)
	y, m, d, ok := parseDate(text)
	if !ok {
		in.t.Fault("date %q; want a day such as 2010-05-17 or a month such as 2010-05, of %d to %d", text, firstYear, lastYear)
		return 0, false
	}
	kind := daily
	if d == 0 {
		kind = monthly
	}
	if in.kind == unsettled {
		in.kind = kind
	}
	if kind != in.kind {
		in.t.Fault("date %q in a file that began with %s; want all days or all months", text, map[step]string{daily: "days", monthly: "months"}[in.kind])
		return 0, false
	}
	return kind.ordinal(y, m, d), true
}

func (r *rows) add(in *intake, at int32) {
	r.at, r.line = append(r.at, at), append(r.line, int32(in.t.Line()))
	r.read(in.t, in.cols.air, temperature)
	for _, col := range in.cols.soil {
		r.read(in.t, col, temperature)
	}
	r.read(in.t, in.cols.precipitation, precipitation)
}

// read appends one field.
func (r *rows) read(t *table.Table, col table.Column, want table.Number) {
	v, ok := t.Number(col, want)
	r.vals, r.has = append(r.vals, float32(v)), append(r.has, ok)
}

// place puts the rows in the order of time. A date given twice is a mistake.
func (r *rows) place(s *Station, in *intake) {
	if len(r.at) == 0 {
		return
	}
	first, last := r.at[0], r.at[0]
	for _, at := range r.at {
		first, last = min(first, at), max(last, at)
	}
	n, width := int(last-first)+1, in.width()
	s.First = in.kind.date(first)
	series := in.allot(s, n)
	seen := make([]int32, n)
	for k, at := range r.at {
		i := at - first
		if seen[i] != 0 {
			in.t.FaultAt(int(r.line[k]), "%s of %q is already on line %d; want one row for a date", in.kind.written(at), s.ID, seen[i])
			continue
		}
		seen[i] = r.line[k]
		for j, v := range series {
			v.Vals[i], v.Has[i] = r.vals[k*width+j], r.has[k*width+j]
		}
	}
	*r = rows{}
}

// allot makes room for n elements and returns the series in the order of the
// columns.
func (in *intake) allot(s *Station, n int) []*Values {
	s.Air, s.Soil = newValues(n), make([]Values, len(in.cols.soil))
	series := []*Values{&s.Air}
	for i := range s.Soil {
		s.Soil[i] = newValues(n)
		series = append(series, &s.Soil[i])
	}
	if in.cols.precipitation != 0 {
		s.Precipitation = newValues(n)
		series = append(series, &s.Precipitation)
	}
	return series
}
