package calibration

import (
	"bufio"
	"cmp"
	_ "embed"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"sync"

	"weekband/grid"
	"weekband/grid/soil"
	"weekband/grid/units"
)

// columns are those of a table, in the order they are written. Name, standard
// errors, years and residual may be missing when a table is read.
var columns = []string{
	"id", "name", "lat", "lon", "elev_m", "coldest_c",
	"mean", "cos1", "sin1", "cos2", "sin2",
	"se_mean", "se_cos1", "se_sin1", "se_cos2", "se_sin2",
	"years", "residual",
}

// Encode writes a table as CSV: one line a station, sorted by id, temperatures
// in °C, coefficients, their standard errors and residuals in K. Lines that
// begin with # are remarks.
func Encode(w io.Writer, list []Station, remarks ...string) error {
	out := bufio.NewWriter(w)
	for _, r := range remarks {
		fmt.Fprintf(out, "# %s\n", r)
	}
	rows := csv.NewWriter(out)
	write := func(record []string) { rows.Write(record) } // the error stays until Flush
	write(columns)
	list = slices.SortedFunc(slices.Values(list), func(a, b Station) int { return cmp.Compare(a.ID, b.ID) })
	for _, st := range list {
		record := []string{st.ID, st.Name, number(st.At.Lat, 4), number(st.At.Lon, 4), number(st.Elevation, 0), number(float64(st.Coldest), 2)}
		for _, o := range []soil.Offset{st.Offset, st.StdErr} {
			for _, c := range coefficientsOf(o) {
				record = append(record, number(c, 3))
			}
		}
		write(append(record, number(st.Years, 1), number(st.Residual, 2)))
	}
	rows.Flush()
	if err := rows.Error(); err != nil {
		return err
	}
	return out.Flush()
}

func number(v float64, digits int) string { return strconv.FormatFloat(v, 'f', digits, 64) }

// limits of what a table may hold, by column.
var limits = map[string][2]float64{
	"lat": {-90, 90}, "lon": {-180, 360}, "elev_m": {-500, 9000}, "coldest_c": {-90, 60},
	"mean": {-40, 40}, "cos1": {-40, 40}, "sin1": {-40, 40}, "cos2": {-40, 40}, "sin2": {-40, 40},
}

const mostMistakes = 20

// Decode reads a table; name stands in messages. The error lists what is wrong
// with file and line: a missing column, a number that is none or out of bounds,
// an id given twice.
func Decode(r io.Reader, name string) ([]Station, error) {
	in := csv.NewReader(r)
	in.Comment = '#'
	head, err := in.Read()
	if errors.Is(err, io.EOF) {
		return nil, fmt.Errorf("%s: the file is empty; want a first line with %s", name, strings.Join(columns, ","))
	}
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	d := &decoder{name: name, col: map[string]int{}, seen: map[string]int{}}
	for i, c := range head {
		d.col[strings.ToLower(strings.TrimSpace(strings.TrimPrefix(c, "\uFEFF")))] = i
	}
	for _, c := range columns[:11] {
		if _, ok := d.col[c]; !ok && c != "name" && c != "elev_m" {
			return nil, fmt.Errorf("%s: no column %q; the first line is %q, want %s", name, c, strings.Join(head, ","), strings.Join(columns, ","))
		}
	}
	for {
		d.row, err = in.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if p, ok := errors.AsType[*csv.ParseError](err); ok {
			return nil, fmt.Errorf("%s:%d: %w", name, p.Line, p.Err)
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		d.line, _ = in.FieldPos(0)
		d.station()
	}
	return d.list, errors.Join(d.wrong...)
}

type decoder struct {
	name  string
	col   map[string]int
	row   []string
	line  int
	seen  map[string]int
	list  []Station
	wrong []error
}

func (d *decoder) mistake(format string, args ...any) {
	if len(d.wrong) < mostMistakes {
		d.wrong = append(d.wrong, fmt.Errorf("%s:%d: %s", d.name, d.line, fmt.Sprintf(format, args...)))
	}
}

func (d *decoder) text(col string) string {
	i, ok := d.col[col]
	if !ok {
		return ""
	}
	return strings.TrimSpace(d.row[i])
}

// number reads a field. Columns without limits may be empty.
func (d *decoder) number(col string) float64 {
	text := d.text(col)
	bound, bounded := limits[col]
	if _, there := d.col[col]; !there || text == "" && !bounded {
		return 0
	}
	v, err := strconv.ParseFloat(text, 64)
	switch {
	case err != nil:
		d.mistake("%s %q is not a number", col, text)
	case bounded && !(v >= bound[0] && v <= bound[1]):
		d.mistake("%s %s is outside %g to %g", col, text, bound[0], bound[1])
	default:
		return v
	}
	return 0
}

func (d *decoder) offset(prefix string) soil.Offset {
	return soil.Offset{
		Mean: d.number(prefix + "mean"), Cos1: d.number(prefix + "cos1"), Sin1: d.number(prefix + "sin1"),
		Cos2: d.number(prefix + "cos2"), Sin2: d.number(prefix + "sin2"),
	}
}

func (d *decoder) station() {
	st := Station{
		ID: d.text("id"), Name: d.text("name"),
		At:        grid.LonLat{Lon: d.number("lon"), Lat: d.number("lat")},
		Elevation: d.number("elev_m"), Coldest: units.Celsius(d.number("coldest_c")),
		Offset: d.offset(""), StdErr: d.offset("se_"),
		Years: d.number("years"), Residual: d.number("residual"),
	}
	if st.At.Lon > 180 {
		st.At.Lon -= 360
	}
	if first, twice := d.seen[st.ID]; twice {
		d.mistake("station %q is in line %d already", st.ID, first)
	}
	d.seen[st.ID] = d.line
	d.list = append(d.list, st)
}

//go:embed us.csv
var usTable string

// US returns the Model of the contiguous United States that comes with
// weekband: stations of the U.S. Climate Reference Network, 2009 to 2024,
// native or grass cover (Diamond et al. 2013, BAMS 94:489; Bell et al. 2013,
// J. Hydrometeor. 14:977; public domain), made by
//
//	weekband calibrate --out us.csv soil-stations.csv soil-daily.csv.gz
var US = sync.OnceValue(func() *Model {
	list, err := Decode(strings.NewReader(usTable), "us")
	if err != nil {
		panic(err) // our own table
	}
	m, err := New("us", list)
	if err != nil {
		panic(err)
	}
	return m
})
