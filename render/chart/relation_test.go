package chart

import (
	"math"
	"strings"
	"testing"

	"weekband/grid"
	"weekband/grid/weeks"
)

// slope is a field whose day rises by 4 days a row of 0.5°, on ground that
// rises by 100 m a column.
func slope(t *testing.T) (*weeks.Field, *grid.Raster[float32]) {
	t.Helper()
	g, err := grid.New(grid.Box{West: -60, South: 30, East: -35, North: 50}, 40, 50)
	if err != nil {
		t.Fatal(err)
	}
	f := &weeks.Field{Window: spring, Cut: 1, Day: grid.NewRaster[float32](g)}
	terrain := grid.NewRaster[float32](g)
	for row := range g.Rows() {
		for col := range g.Cols() {
			at := grid.Cell{Row: row, Col: col}
			f.Day.Set(at, float32(60+2*float64(col)+0.001*float64(row)))
			terrain.Set(at, float32(50+100*col))
		}
	}
	return f, terrain
}

func TestDayAgainstElevation(t *testing.T) {
	f, terrain := slope(t)
	c, ok := Relation(nil, f, terrain)
	if !ok || c.ID != "elevation-spring" {
		t.Fatalf("chart %q, %v", c.ID, ok)
	}
	o := decoded(t, c)
	if n := len(o.Series[0].Data); n < 780 || n > 820 {
		t.Errorf("%d cells, want about 800", n)
	}
	for _, d := range o.Series[0].Data {
		if want := 60 + 2*(d.Value[0]-50)/100; math.Abs(d.Value[1]-want) > 0.1 {
			t.Errorf("at %v m day %v, want %v", d.Value[0], d.Value[1], want)
		}
	}
	if !strings.Contains(c.Alt, "(2.0 days later for each 100 m upward)") || !strings.Contains(c.Alt, "6.1 days later for each 1,000 ft") {
		t.Errorf("2 days a 100 m are described as %q", c.Alt)
	}
}

func TestDayAgainstLatitudeWithoutTerrain(t *testing.T) {
	f, _ := slope(t)
	for cell := range f.Day.All() {
		f.Day.Set(cell, float32(60+4*(f.Grid().Center(cell).Lat-30)))
	}
	c, ok := Relation(nil, f, nil)
	if !ok || c.ID != "latitude-spring" || !strings.Contains(c.Alt, "4.0 days later for each degree northward") {
		t.Errorf("%q: %q, %v", c.ID, c.Alt, ok)
	}
	if _, ok := Relation(nil, f, grid.NewRaster[float32](f.Grid())); !ok {
		t.Error("an empty terrain leaves no chart")
	}
}

// Type 7 of Hyndman and Fan 1996: the median of 1, 2, 3, 4 is 2.5.
func TestQuantile(t *testing.T) {
	for share, want := range map[float64]float64{0: 1, 0.5: 2.5, 1: 4, 0.1: 1.3} {
		if got := quantile([]float64{1, 2, 3, 4}, share); math.Abs(got-want) > 1e-12 {
			t.Errorf("quantile %v is %v, want %v", share, got, want)
		}
	}
}

// A cell is as high as the mean of the finer cells whose middle lies in it, by
// hand; where the terrain is coarser, as the cell its middle lies in.
func TestHeightOfACell(t *testing.T) {
	g, err := grid.New(grid.Box{West: 10, South: 40, East: 17, North: 45}, 5, 7) // cells of 1°
	if err != nil {
		t.Fatal(err)
	}
	terrain := grid.NewRaster[float32](g)
	for row := range 5 {
		for col := range 7 {
			terrain.Set(grid.Cell{Row: row, Col: col}, float32(100*row+col))
		}
	}
	for _, c := range []struct {
		name string
		box  grid.Box
		want float64
		ok   bool
	}{
		{"two by two", grid.Box{West: 11, South: 42, East: 13, North: 44}, 151.5, true},           // 101, 102, 201, 202
		{"middles only", grid.Box{West: 11.6, South: 42.4, East: 13.6, North: 43.6}, 152.5, true}, // 102, 103, 202, 203
		{"finer than the terrain", grid.Box{West: 12.1, South: 43.1, East: 12.2, North: 43.2}, 102, true},
		{"half outside", grid.Box{West: 16, South: 44, East: 18, North: 46}, 6, true},
		{"outside", grid.Box{West: 20, South: 44, East: 21, North: 45}, 0, false},
	} {
		if got, ok := heightOf(terrain, c.box); got != c.want || ok != c.ok {
			t.Errorf("%s: %v m, %v; want %v, %v", c.name, got, ok, c.want, c.ok)
		}
	}
}
