package places

import (
	"io"
	"strings"
	"unicode/utf8"

	"weekband/grid"
	"weekband/grid/table"
	"weekband/grid/table/sites"
	"weekband/regions/naming"
)

// Place is a named position.
type Place struct {
	Name   string
	At     grid.LonLat
	Code   string // postal code or other short name; may be empty
	Region string // name or id of the region as the list gives it; may be empty
	Rank   int    // 1 for the largest places, which maps label first; 0 when not given
}

// Decode reads a CSV list with a header line that names the columns name, lat
// and lon, and if wanted code, region and rank, in any order; other columns
// are ignored. Positions are degrees on WGS 84, north and east positive. name
// stands in messages. notes say what was repaired to read the list. The error
// is a problem.Report of what is wrong with each line.
func Decode(r io.Reader, name string) (list []Place, notes []string, err error) {
	var wrong table.Mistakes
	form := table.Form{Need: []string{"name", "lat", "lon"}, Want: "at least the columns name, lat and lon", Loose: true}
	t, err := table.Open(table.Text{Reader: r, Name: name}, form, &wrong)
	if err != nil {
		return nil, nil, err
	}
	at := layout{
		name: t.Find("name"), lat: t.Find("lat"), lon: t.Find("lon"),
		code: t.Find("code"), region: t.Find("region"), rank: t.Find("rank"),
	}
	for t.Next() {
		if p, ok := at.place(t); ok {
			list = append(list, p)
		}
	}
	return list, wrong.Notes(), wrong.Err()
}

// layout says where the columns stand.
type layout struct{ name, lat, lon, code, region, rank table.Column }

var (
	rank = table.Number{Low: 0, High: 1e9, Whole: true, Optional: true, Hint: "1 is for the largest places"}
)

// place reads the current row.
func (l layout) place(t *table.Table) (p Place, ok bool) {
	text := func(c table.Column) string { return strings.Clone(t.Text(c)) } // not the whole row
	p = Place{Name: text(l.name), Code: text(l.code), Region: text(l.region)}
	if p.Name == "" {
		t.Fault("the place has no name")
		return p, false
	}
	if n := utf8.RuneCountInString(p.Name); n > naming.Most {
		t.Fault("the place has a name of %d letters; want at most %d", n, naming.Most)
		return p, false
	}
	t.About(p.Name)
	var ok1, ok2 bool
	p.At.Lat, ok1 = t.Number(l.lat, sites.Latitude)
	p.At.Lon, ok2 = t.Number(l.lon, sites.Longitude)
	v, _ := t.Number(l.rank, rank)
	p.Rank = int(v)
	return p, ok1 && ok2
}
