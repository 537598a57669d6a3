package lookup_test

import (
	"fmt"
	"math"
	"os"
	"testing"

	"github.com/paulmach/orb"

	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/status"
	"weekband/grid/weeks"
	"weekband/regions/places"
	"weekband/regions/zonal"
	"weekband/render/lookup"
)

// field is a made-up field on a lopsided grid of several blocks.
func field(t testing.TB) *weeks.Field { return fieldOf(t, 70, 133) }

// fieldOf is such a field of so many rows and columns, with a block of sea,
// ground beyond stations in the north, and typical years but in one column.
func fieldOf(t testing.TB, rows, cols int) *weeks.Field {
	t.Helper()
	g, err := grid.New(grid.Box{West: -91, South: 37, East: -84, North: 39.5}, rows, cols)
	if err != nil {
		t.Fatal(err)
	}
	f := &weeks.Field{
		Window: status.Window{ID: "spring", Title: "Spring", Trigger: crossing.Trigger{Level: 12.5}, AheadDays: 21},
		Cut:    300, Reason: grid.NewRaster[crossing.Reason](g), Day: grid.NewRaster[float32](g),
		Spread: grid.NewRaster[float32](g), OntimeFrom: grid.NewRaster[float32](g), CatchupTo: grid.NewRaster[float32](g), Error: grid.NewRaster[float32](g),
		Common: &weeks.Common{Near: grid.NewRaster[float32](g), Typical: &weeks.Years{Stride: 1, Blocks: grid.NewRaster[weeks.Months](g)}},
	}
	for row := range rows {
		for col := range cols {
			c := grid.Cell{Row: row, Col: col}
			if row < 64 && col >= 64 && col < 128 { // sea
				continue
			}
			f.Near.Set(c, float32(row)/20)
			if col != 7 {
				f.Typical.Blocks.Set(c, monthsAt(c))
			}
			if row == col {
				f.Reason.Set(c, crossing.Always)
				continue
			}
			f.Reason.Set(c, crossing.Dated)
			day := float32(row+col)*200/float32(rows+cols) + 300.25 + float32(row*col%5)/3
			f.Day.Set(c, day)
			f.OntimeFrom.Set(c, day-20-float32(col*7%30))
			f.CatchupTo.Set(c, day+41+float32(row%9))
			f.Spread.Set(c, 8+float32(col%100)/20)
			f.Error.Set(c, 4+float32(row%200)/20)
		}
	}
	return f
}

func monthsAt(c grid.Cell) (m weeks.Months) {
	for k := range m {
		m[k] = int16(900 - 1400*math.Cos(float64(k)/2) + float64(c.Row*3+c.Col%13))
	}
	return m
}

func edition(t testing.TB) (*lookup.Edition, string) {
	t.Helper()
	dir := t.TempDir()
	return write(t, dir, data(field(t))), dir
}

func write(t testing.TB, dir string, d lookup.Data) *lookup.Edition {
	t.Helper()
	root, err := os.OpenRoot(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	x := lookup.Index{Title: "T", Edition: 2027, Measures: "soil", Language: "en"}
	if err := lookup.Write(root, x, d); err != nil {
		t.Fatal(err)
	}
	e, err := lookup.Open(os.DirFS(dir))
	if err != nil {
		t.Fatal(err)
	}
	return e
}

// Regions of data, which overlap.
var (
	northWest = grid.Box{West: -91, South: 38.2, East: -89.03, North: 39.5}
	allAround = grid.Box{West: -91, South: 37, East: -86, North: 39.5}
)

func ring(b grid.Box) orb.MultiPolygon {
	return orb.MultiPolygon{{{{b.West, b.South}, {b.East, b.South}, {b.East, b.North}, {b.West, b.North}, {b.West, b.South}}}}
}

// data is what an edition of a field knows: two regions and a few places.
func data(f *weeks.Field) lookup.Data {
	d := lookup.Data{Fields: []*weeks.Field{f, cooling(f)}}
	for i, box := range []grid.Box{northWest, allAround} {
		d.Covers = append(d.Covers, zonal.Cover(ring(box), f.Grid()))
		d.Regions = append(d.Regions, lookup.Region{Name: fmt.Sprint("Region ", i), ID: fmt.Sprint(i), Slug: fmt.Sprint("region-", i), Inside: grid.LonLat{Lon: -90, Lat: 38.5}})
	}
	for i, name := range []string{"Lowen", "Saint Aldwyn, Upper", "Край", "Élmere", "Elmerton"} {
		d.Places = append(d.Places, places.Place{Name: name, Code: fmt.Sprintf("M%d 7", i), Rank: i % 3, At: grid.LonLat{Lon: -90.125 + float64(i), Lat: 38}})
	}
	return d
}

// cooling is the field as another season would have it, days before the year
// among them.
func cooling(f *weeks.Field) *weeks.Field {
	out := *f
	out.Window.ID, out.Window.Trigger.Direction = "autumn", crossing.Cooling
	out.Day = grid.NewRaster[float32](f.Grid())
	for c, day := range f.Day.All() {
		out.Day.Set(c, day-120.75)
	}
	return &out
}
