package series

import (
	"fmt"
	"strings"
)

// intake takes rows of values to their stations.
type intake struct {
	t     *table
	cols  columns
	kind  step
	rows  []rows // by station
	index map[string]int

	lastID string // rows of one station mostly follow each other
	last   int
	known  bool

	unknown int
	example string
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
	t := in.t
	if id := t.text(in.cols.id); id != in.lastID || in.lastID == "" {
		in.last, in.known = in.index[id]
		in.lastID = strings.Clone(id) // not the whole row
	}
	switch {
	case !in.known:
		if in.unknown++; in.unknown == 1 {
			in.example = fmt.Sprintf("%s:%d: %q", t.name, t.line(), in.lastID)
		}
		return
	case in.last < 0: // the site has a mistake of its own
		return
	}
	if at, ok := in.ordinal(); ok {
		in.rows[in.last].add(in, at)
	}
}

// ordinal reads the date of the current row; the first one settles whether
// the file is daily or monthly.
func (in *intake) ordinal() (int32, bool) {
	text := in.t.text(in.cols.date)
	y, m, d, ok := parseDate(text)
	if !ok {
		in.t.fault("date %q; want a day such as 2010-05-17 or a month such as 2010-05, of %d to %d", text, firstYear, lastYear)
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
		in.t.fault("date %q in a file that began with %s; want all days or all months", text, map[step]string{daily: "days", monthly: "months"}[in.kind])
		return 0, false
	}
	return kind.ordinal(y, m, d), true
}

func (r *rows) add(in *intake, at int32) {
	r.at, r.line = append(r.at, at), append(r.line, int32(in.t.line()))
	r.read(in.t, in.cols.air, coldest, hottest)
	for _, col := range in.cols.soil {
		r.read(in.t, col, coldest, hottest)
	}
	r.read(in.t, in.cols.precipitation, 0, wettest)
}

// read appends one field.
func (r *rows) read(t *table, col int, low, high float64) {
	v, ok := 0.0, false
	if t.text(col) != "" {
		v, ok = t.number(col, low, high)
	}
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
			in.t.wrong.add(in.t.name, int(r.line[k]), fmt.Sprintf("%s of %q is already on line %d; want one row for a date", in.kind.written(at), s.ID, seen[i]))
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
	if in.cols.precipitation >= 0 {
		s.Precipitation = newValues(n)
		series = append(series, &s.Precipitation)
	}
	return series
}
