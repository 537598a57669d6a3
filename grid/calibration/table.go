package calibration

import (
	"bufio"
	"cmp"
	_ "embed"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"sync"

	"weekband/grid"
	"weekband/grid/soil"
	"weekband/grid/table"
	"weekband/grid/table/sites"
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

// needed are the columns a table cannot be without.
var needed = []string{"id", "lat", "lon", "coldest_c", "mean", "cos1", "sin1", "cos2", "sin2"}

// What a table may hold.
var (
	longitude   = table.Number{Low: -180, High: 360, Unit: "degrees"}
	elevation   = table.Number{Low: sites.Lowest, High: sites.Highest, Unit: "m"}
	coldest     = table.Number{Low: -90, High: 60, Unit: "°C"}
	coefficient = table.Number{Low: -40, High: 40, Unit: "K"}
	deviation   = table.Number{Low: 0, High: 1000, Unit: "K", Optional: true}
	duration    = table.Number{Low: 0, High: 1000, Unit: "years", Optional: true}
)

// Decode reads a table; name stands in messages. The error lists what is wrong
// with file and line: a missing column, a number that is none or out of bounds,
// an id that is empty or given twice. notes say what was repaired to read it.
func Decode(r io.Reader, name string) (list []Station, notes []string, err error) {
	var wrong table.Mistakes
	form := table.Form{Need: needed, Want: strings.Join(columns, ","), Remarks: true}
	t, err := table.Open(table.Text{Reader: r, Name: name}, form, &wrong)
	if err != nil {
		return nil, nil, err
	}
	for t.Next() {
		list = append(list, readStation(t))
	}
	return list, wrong.Notes(), wrong.Err()
}

// readStation reads the current row; columns that are not there give zeros.
func readStation(t *table.Table) Station {
	number := func(col string, want table.Number) float64 {
		v, _ := t.Number(t.Find(col), want)
		return v
	}
	offset := func(prefix string, want table.Number) soil.Offset {
		return soil.Offset{
			Mean: number(prefix+"mean", want), Cos1: number(prefix+"cos1", want), Sin1: number(prefix+"sin1", want),
			Cos2: number(prefix+"cos2", want), Sin2: number(prefix+"sin2", want),
		}
	}
	id, _ := t.Key(t.Find("id"))
	st := Station{
		ID: id, Name: strings.Clone(t.Text(t.Find("name"))),
		At:        grid.LonLat{Lon: number("lon", longitude), Lat: number("lat", sites.Latitude)},
		Elevation: number("elev_m", elevation), Coldest: units.Celsius(number("coldest_c", coldest)),
		Offset: offset("", coefficient), StdErr: offset("se_", deviation),
		Years: number("years", duration), Residual: number("residual", deviation),
	}
	if st.At.Lon > 180 {
		st.At.Lon -= 360
	}
	return st
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
	list, _, err := Decode(strings.NewReader(usTable), "us")
	if err != nil {
		panic(err) // our own table
	}
	m, err := New("us", list)
	if err != nil {
		panic(err)
	}
	return m
})
