package agreement

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"weekband/grid"
	"weekband/grid/series"
	"weekband/grid/table"
	"weekband/grid/table/sites"
	"weekband/grid/units"
)

// form is what a table of readings looks like.
var form = table.Form{
	Need: []string{"lat", "lon", "date", "soil"},
	Want: "place,lat,lon,date,soil,depth",
}

// longitude takes those that count east to 360 too.
var longitude = table.Number{Low: -180, High: 360, Unit: "degrees", Hint: sites.Longitude.Hint}

// plausible bounds readings of soil: the reference stations reach 51 and
// −19 °C as daily means.
const coldest, hottest units.Celsius = -50, 70

// Decode reads readings as CSV with the columns lat and lon in degrees, date as
// 2026-03-25, soil as a temperature with its unit such as 52.3 F or 11.4 C, and,
// if there, place and depth such as 4 in; an empty depth, or none, is that of
// the map. Rows may come in any order; those of one place and depth are one
// Log. A place is what is called so, or without a name what lies at one
// position. notes say what was repaired to read the table. Decode returns all
// mistakes with file and line.
func Decode(in table.Text) (logs []Log, notes []string, err error) {
	var wrong table.Mistakes
	t, err := table.Open(in, form, &wrong)
	if err != nil {
		return nil, nil, err
	}
	d := decoder{t: t, place: t.Find("place"), lat: t.Find("lat"), lon: t.Find("lon"), date: t.Find("date"), soil: t.Find("soil"), depth: t.Find("depth"), index: map[key]int{}}
	for t.Next() {
		d.row()
	}
	if err := wrong.Err(); err != nil {
		return nil, nil, err
	}
	if len(d.logs) == 0 {
		return nil, nil, fmt.Errorf("%s: no reading below the first line", in.Name)
	}
	slices.SortStableFunc(d.logs, func(a, b Log) int {
		return cmp.Or(cmp.Compare(a.Name, b.Name), cmp.Compare(b.At.Lat, a.At.Lat), cmp.Compare(a.At.Lon, b.At.Lon), cmp.Compare(a.Depth, b.Depth))
	})
	return d.logs, wrong.Notes(), nil
}

type decoder struct {
	t                                  *table.Table
	place, lat, lon, date, soil, depth table.Column
	logs                               []Log
	index                              map[key]int
}

// key tells logs apart: by name where there is one.
type key struct {
	name  string
	at    grid.LonLat
	depth units.Metres
}

func (d *decoder) row() {
	lat, ok1 := d.t.Number(d.lat, sites.Latitude)
	lon, ok2 := d.t.Number(d.lon, longitude)
	text := d.t.Text(d.date)
	date, err := time.Parse(time.DateOnly, text)
	if err != nil {
		d.t.Fault("date %q is no date; want year, month and day, such as 2026-03-25: other orders cannot be told apart", text)
	}
	soil, ok3 := d.temperature()
	depth, ok4 := d.depthOf()
	if !ok1 || !ok2 || err != nil || !ok3 || !ok4 {
		return
	}
	if lon > 180 {
		lon -= 360
	}
	at := grid.LonLat{Lon: lon, Lat: lat}
	k := key{name: d.t.Text(d.place), depth: depth}
	if k.name == "" {
		k.at = at
	}
	i, known := d.index[k]
	if !known {
		i = len(d.logs)
		k.name = strings.Clone(k.name)
		d.index[k] = i
		d.logs = append(d.logs, Log{Name: k.name, At: at, Depth: depth})
	} else if d.logs[i].At != at {
		d.t.Fault("%q is at %.4f, %.4f here and at %.4f, %.4f before; want one position for a place", k.name, lat, lon, d.logs[i].At.Lat, d.logs[i].At.Lon)
		return
	}
	d.logs[i].Readings = append(d.logs[i].Readings, Reading{Date: series.NewDate(date.Date()), Soil: soil})
}

func (d *decoder) temperature() (units.Celsius, bool) {
	soil, err := units.Parse(d.t.Decimal(d.soil))
	if err != nil {
		d.t.Fault("soil: %w", err)
		return 0, false
	}
	if soil < coldest || soil > hottest {
		d.t.Fault("soil %s is outside %v to %v; is the unit right?", d.t.Text(d.soil), coldest, hottest)
		return 0, false
	}
	return soil, true
}

func (d *decoder) depthOf() (units.Metres, bool) {
	text := d.t.Decimal(d.depth)
	if text == "" {
		return 0, true
	}
	depth, err := units.ParseDepth(text)
	if err != nil {
		d.t.Fault("%w", err)
		return 0, false
	}
	return depth, true
}
