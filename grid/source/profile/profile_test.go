package profile_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"weekband/grid"
	"weekband/grid/source"
	"weekband/grid/source/profile"
)

// year is twelve layers from a function of latitude and month.
type year struct {
	g grid.Grid
	f func(lat float64, month int) float64
}

func (y year) Grid() grid.Grid              { return y.g }
func (y year) Count() int                   { return 12 }
func (y year) Close() error                 { return nil }
func (y year) Describe() source.Description { return source.Description{Name: "year"} }
func (y year) Read(layer, first, rows int, vals []float32, has []bool) error {
	for i := range vals {
		v := y.f(y.g.Center(grid.Cell{Row: first + i/y.g.Cols()}).Lat, layer)
		vals[i], has[i] = float32(v), !math.IsInf(v, 0)
	}
	return nil
}

func lopsided(t testing.TB) grid.Grid {
	t.Helper()
	g, err := grid.New(grid.Box{West: -91, South: 30, East: -84, North: 44}, 70, 7)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

// mild is a year as it should be: colder to the north, warmest in July.
func mild(lat float64, month int) float64 {
	return 15 - 0.6*(lat-37) - 11*math.Cos(2*math.Pi*(float64(month)-0.3)/12)
}

func TestASoundYearRaisesNoSuspicion(t *testing.T) {
	p, err := profile.Of(year{lopsided(t), mild})
	if err != nil {
		t.Fatal(err)
	}
	if len(p.Suspicions) > 0 {
		t.Errorf("suspicions %q", p.Suspicions)
	}
	if l := p.Layers[6]; l.Min > l.Mean || l.Mean > l.Max || l.Missing != 0 || math.Abs(l.Mean-mild(36.9, 6)) > 0.2 {
		t.Errorf("July %+v", l)
	}
}

func TestSuspicions(t *testing.T) {
	for _, c := range []struct {
		name string
		f    func(lat float64, month int) float64
		want string
	}{
		{"begins in July", func(lat float64, m int) float64 { return mild(lat, (m+6)%12) }, "do the layers begin with January"},
		{"upside down", func(lat float64, m int) float64 { return mild(74-lat, m) }, "upside down"},
		{"a month in another unit", func(lat float64, m int) float64 {
			if m == 3 {
				return mild(lat, m)*1.8 + 32
			}
			return mild(lat, m)
		}, "layer 4 departs"},
		{"nodata as a value", func(lat float64, m int) float64 {
			if lat > 43.5 {
				return -9999
			}
			return mild(lat, m)
		}, "stands for missing cells"},
		{"sea as zero", func(lat float64, m int) float64 {
			if lat > 42 {
				return 0
			}
			return mild(lat, m)
		}, "exactly 0"},
		{"constant layer", func(lat float64, m int) float64 {
			if m == 11 {
				return 5
			}
			return mild(lat, m)
		}, "same value, 5"},
		{"one month twelve times", func(lat float64, _ int) float64 { return mild(lat, 3) }, "all twelve layers have the same mean"},
		{"gaps", func(lat float64, m int) float64 {
			if m == 3 && lat > 43.7 {
				return math.Inf(1)
			}
			return mild(lat, m)
		}, "layer 1 has 490 values and layer 4 only 483"},
		{"two months exchanged", func(lat float64, m int) float64 {
			if m == 3 || m == 4 {
				m = 7 - m
			}
			return mild(lat, m)
		}, "layer 4 departs"},
		{"a small number for missing cells", func(lat float64, m int) float64 {
			if lat > 43.7 {
				return -99
			}
			return mild(lat, m)
		}, "-99, in 7 cells, seems"},
		{"a large number for missing cells", func(lat float64, m int) float64 {
			if lat > 43.7 {
				return 1e20
			}
			return mild(lat, m)
		}, "1e+20, in 7 cells, seems"},
		{"two numbers for missing cells", func(lat float64, m int) float64 {
			if lat > 42 {
				return -9999 + math.Floor(lat-42)
			}
			return mild(lat, m)
		}, "-9999, in 35 cells, seems"},
		{"cut off", func(lat float64, m int) float64 { return max(mild(lat, m), 2) }, "exactly 2, the least value"},
		{"alike", func(lat float64, m int) float64 { return max(mild(lat, m), 12) }, "; 2 other layers are alike"},
		{"empty layer", func(lat float64, m int) float64 {
			if m == 0 {
				return math.Inf(1)
			}
			return mild(lat, m)
		}, "no values at all"},
	} {
		p, err := profile.Of(year{lopsided(t), c.f})
		if err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(strings.Join(p.Suspicions, "\n"), c.want) {
			t.Errorf("%s: suspicions %q, want %q", c.name, p.Suspicions, c.want)
		}
	}
}

// A degree of longitude at 37° is 88.9 km and one of latitude 111.0 km (from
// the radius and flattening of WGS 84, worked by hand).
func TestCellsInKm(t *testing.T) {
	p, err := profile.Of(year{lopsided(t), mild}) // 0.2° high, 1° wide, middle row at 36.9°
	if err != nil {
		t.Fatal(err)
	}
	if wide, high := p.CellKm(); math.Abs(wide-89) > 0.3 || math.Abs(high-22.2) > 0.1 {
		t.Errorf("%v × %v km", wide, high)
	}
}

// Rains that cool the middle of a hot season make a second wave in the year,
// and nothing is wrong with that.
func TestTwoWavesAYearAreSound(t *testing.T) {
	p, err := profile.Of(year{lopsided(t), func(lat float64, m int) float64 {
		return mild(lat, m) + 5*math.Cos(4*math.Pi*float64(m)/12)
	}})
	if err != nil || len(p.Suspicions) > 0 {
		t.Errorf("suspicions %q, %v", p.Suspicions, err)
	}
}

// Numbers that are large but follow each other are no sign of missing cells:
// the floor of the sea lies 10,000 m deep.
func TestDeepSeaIsNoMissingCell(t *testing.T) {
	g := lopsided(t)
	p, err := profile.Of(year{g, func(lat float64, _ int) float64 { return 3000 - 1000*(lat-30) + 1e-3*lat }})
	if err != nil || strings.Contains(strings.Join(p.Suspicions, " "), "missing") {
		t.Errorf("suspicions %q, %v", p.Suspicions, err)
	}
}

// On a grid of both hemispheres each has its own summer.
func TestHemispheres(t *testing.T) {
	g, err := grid.New(grid.Box{West: 0, South: -60, East: 7, North: 80}, 70, 7)
	if err != nil {
		t.Fatal(err)
	}
	world := func(lat float64, m int) float64 {
		return 28 - 0.4*math.Abs(lat) - 0.2*lat*math.Cos(2*math.Pi*(float64(m)-0.3)/12)
	}
	for name, c := range map[string]struct {
		f    func(lat float64, m int) float64
		want bool
	}{
		"sound":       {world, false},
		"upside down": {func(lat float64, m int) float64 { return world(20-lat, m) }, true},
		"from July":   {func(lat float64, m int) float64 { return world(lat, (m+6)%12) }, true},
	} {
		p, err := profile.Of(year{g, c.f})
		if err != nil {
			t.Fatal(err)
		}
		if got := strings.Contains(strings.Join(p.Suspicions, " "), "begin with July"); got != c.want || !c.want && len(p.Suspicions) > 0 {
			t.Errorf("%s: suspicions %q", name, p.Suspicions)
		}
	}
}

func TestSouthernSummerIsInJanuary(t *testing.T) {
	g, err := grid.New(grid.Box{West: 140, South: -44, East: 147, North: -30}, 70, 7)
	if err != nil {
		t.Fatal(err)
	}
	p, err := profile.Of(year{g, func(lat float64, m int) float64 { return mild(-lat, (m+6)%12) }})
	if err != nil || len(p.Suspicions) > 0 {
		t.Errorf("suspicions %q, %v", p.Suspicions, err)
	}
}

func ExampleOf() {
	g, err := grid.New(grid.Box{West: -91, South: 30, East: -84, North: 44}, 70, 7)
	if err != nil {
		fmt.Println(err)
		return
	}
	p, err := profile.Of(year{g, func(lat float64, m int) float64 { return mild(lat, (m+6)%12) }})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(p.Suspicions[0])
	// Output: the warmest layer is number 1 and the coldest number 7; in northern latitudes the warmest month is one of June to September: do the layers begin with January?
}

// Twelve files of one layer are the year that one file of twelve is.
func TestMergeIsAYear(t *testing.T) {
	late := func(lat float64, m int) float64 { return mild(lat, (m+6)%12) }
	whole, err := profile.Of(year{lopsided(t), late})
	if err != nil {
		t.Fatal(err)
	}
	var parts []profile.Profile
	for m := range 12 {
		p, err := profile.Of(month{year{lopsided(t), late}, m})
		if err != nil {
			t.Fatal(err)
		}
		parts = append(parts, p)
	}
	got := profile.Merge(parts)
	if len(got.Layers) != 12 || got.Layers[3].Name != "file 3" || got.Layers[3].Mean != whole.Layers[3].Mean {
		t.Errorf("%d layers, the fourth %+v", len(got.Layers), got.Layers[3])
	}
	if len(got.Suspicions) == 0 || got.Suspicions[0] != whole.Suspicions[0] {
		t.Errorf("suspicions %q, want %q", got.Suspicions, whole.Suspicions)
	}
}

// month is a file of one month of a year.
type month struct {
	year
	m int
}

func (f month) Count() int { return 1 }
func (f month) Describe() source.Description {
	return source.Description{Name: fmt.Sprintf("file %d", f.m)}
}
func (f month) Read(_, first, rows int, vals []float32, has []bool) error {
	return f.year.Read(f.m, first, rows, vals, has)
}
