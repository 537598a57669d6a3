package sites

import (
	"fmt"
	"strings"

	"weekband/grid"
	"weekband/grid/table"
)

// Site is a place where something is measured.
type Site struct {
	ID, Name  string
	At        grid.LonLat
	Elevation float64 // m above sea level
}

// Limits of elevations, m: the Dead Sea shore lies at −430 m, Mount Everest at
// 8,849 m (from memory).
const Lowest, Highest = -500, 9000

// What the columns of a position may hold.
var (
	Latitude  = table.Number{Low: -90, High: 90, Unit: "degrees", Hint: positions}
	Longitude = table.Number{Low: -180, High: 180, Unit: "degrees", Hint: positions}
)

const positions = "write decimal degrees, north and east positive; are lat and lon swapped?"

// List is the sites of a table.
type List struct {
	Sites []Site
	index map[string]int // by id, flawed for a site with a mistake

	lastID string // rows of one site mostly follow each other
	last   int
	known  bool

	strangers int
	example   string
}

const flawed = -1 // its values are not values of an unknown site

// Read reads a list of sites: id, name (may be missing), lat and lon in
// degrees, north and east positive, and elev_m. Rows with a mistake are left
// out and noted in wrong, among them an id that is empty or there twice. It
// returns an error when the first line cannot be used.
func Read(in table.Text, wrong *table.Mistakes) (*List, error) {
	t, err := table.Open(in, table.Form{Need: []string{"id", "lat", "lon", "elev_m"}, Want: "id,name,lat,lon,elev_m"}, wrong)
	if err != nil {
		return nil, err
	}
	id, name := t.Find("id"), t.Find("name")
	lat, lon, height := t.Find("lat"), t.Find("lon"), t.Find("elev_m")
	l := &List{index: map[string]int{}}
	for t.Next() {
		key, ok := t.Key(id)
		if !ok {
			continue
		}
		s := Site{ID: key, Name: strings.Clone(t.Text(name))}
		var ok1, ok2, ok3 bool
		s.At.Lat, ok1 = t.Number(lat, Latitude)
		s.At.Lon, ok2 = t.Number(lon, Longitude)
		s.Elevation, ok3 = t.Number(height, table.Number{Low: Lowest, High: Highest, Unit: "m"})
		l.index[key] = flawed
		if ok1 && ok2 && ok3 {
			l.index[key] = len(l.Sites)
			l.Sites = append(l.Sites, s)
		}
	}
	return l, nil
}

// Of returns which of the Sites the current row of a table of values is for;
// id is the column that says so. ok is false when the list does not have it,
// which is counted, or has a mistake in its row.
func (l *List) Of(t *table.Table, id table.Column) (i int, ok bool) {
	if text := t.Text(id); text != l.lastID || text == "" {
		l.last, l.known = l.index[text]
		l.lastID = strings.Clone(text) // not the whole row
	}
	if !l.known {
		if l.strangers++; l.strangers == 1 {
			l.example = fmt.Sprintf("%s: %q", t.Place(), l.lastID)
		}
	}
	return l.last, l.known && l.last != flawed
}

// Strangers returns how many rows Of found no site for, and where the first
// one is: `values.csv:5: "X"`.
func (l *List) Strangers() (n int, first string) { return l.strangers, l.example }
