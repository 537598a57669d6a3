package classes_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"weekband/grid"
	"weekband/grid/classes"
)

// raster is a row of cells of one size.
func raster(vals ...float32) *grid.Raster[float32] {
	g, err := grid.New(grid.Box{West: 3, South: 50, East: 3 + 0.1*float64(max(1, len(vals))), North: 50.1}, 1, max(1, len(vals)))
	if err != nil {
		panic(err)
	}
	r := grid.NewRaster[float32](g)
	for i, v := range vals {
		r.Set(grid.Cell{Col: i}, v)
	}
	return r
}

func ExampleEven() {
	for _, c := range classes.Even(raster(2.1, 3.5, 4.4, 7.9, 8.8, 12.3), 1) {
		fmt.Println(c)
	}
	// Output:
	// 2–4
	// 4–6
	// 6–8
	// 8–10
	// 10–12
	// 12–14
}

// ramp holds n values evenly from lo to hi.
func ramp(n int, lo, hi float64) []float32 {
	out := make([]float32, n)
	for i := range out {
		out[i] = float32(lo + (hi-lo)*float64(i)/float64(n-1))
	}
	return out
}

func words(list []classes.Class) []string {
	var out []string
	for _, c := range list {
		out = append(out, c.String())
	}
	return out
}

func TestEvenByHand(t *testing.T) {
	outlier := append(ramp(200, 3, 6.9), 45) // 0.5 % of the ground
	for name, c := range map[string]struct {
		vals  []float32
		least float64
		want  []string
	}{
		"nothing":            {nil, 1, nil},
		"one value":          {[]float32{11, 11}, 1, []string{"11–12"}},
		"a limit is its own": {[]float32{2, 3, 4}, 1, []string{"2–3", "3–4", "4–5"}},
		"an open end":        {outlier, 1, []string{"3–4", "4–5", "5–6", "6 or more"}},
		"below zero":         {[]float32{-3, 3}, 1, []string{"−3 to −2", "−2 to −1", "−1 to 0", "0–1", "1–2", "2–3", "3–4"}},
		"steps of 20":        {ramp(100, 0, 99), 1, []string{"0–20", "20–40", "40–60", "60–80", "80–100"}},
		"steps of a tenth":   {[]float32{0.25, 0.45}, 0.1, []string{"0.2–0.3", "0.3–0.4", "0.4–0.5"}},
		"both ends":          {append(ramp(198, 20.5, 39.5), 3, 81), 5, []string{"under 25", "25–30", "30–35", "35 or more"}},
	} {
		r := raster(c.vals...)
		if c.vals == nil {
			r = grid.NewRaster[float32](r.Grid())
		}
		if got := words(classes.Even(r, c.least)); !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}

// Whatever the values: at most seven classes, none overlapping, areas add up,
// open ends hold at most 2 % beyond their own, and a narrower round width
// would not do.
func TestEvenOnRandomValues(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 9))
	for range 300 {
		scale := math.Pow(10, random.Float64()*4-1)
		vals := make([]float32, 1+random.IntN(400))
		for i := range vals {
			vals[i] = float32(scale * (1 + random.NormFloat64()))
		}
		r := raster(vals...)
		list := classes.Even(r, 0.01)
		if len(list) == 0 || len(list) > classes.Max {
			t.Fatalf("%d classes", len(list))
		}
		below, above := 0, 0
		for _, v := range vals {
			if float64(v) < list[0].From {
				below++
			}
			if float64(v) >= list[len(list)-1].To {
				above++
			}
		}
		if n := float64(len(vals)); float64(below) > 0.02*n || float64(above) > 0.02*n {
			t.Errorf("%d and %d of %g values lie beyond the ends", below, above, n)
		}
		if list[0].OpenBegin != (below > 0) || list[len(list)-1].OpenEnd != (above > 0) {
			t.Errorf("open ends of %q with %d and %d beyond", words(list), below, above)
		}
		sum := 0.0
		for _, a := range classes.Areas(list, r) {
			sum += a
		}
		if want := float64(len(vals)) * r.Grid().CellArea(0); math.Abs(sum/want-1) > 1e-9 {
			t.Errorf("areas add to %g, want %g", sum, want)
		}
		for i := 1; i < len(list); i++ {
			if list[i].From != list[i-1].To {
				t.Errorf("%v follows %v", list[i], list[i-1])
			}
		}
		if width := list[0].To - list[0].From; width > 0.0101 && len(list) < 3 {
			t.Errorf("%d classes of %g: the next narrower width, half or two fifths, gives at most %d", len(list), width, 2*len(list)+1)
		}
	}
}

func TestAroundByHand(t *testing.T) {
	for name, c := range map[string]struct {
		vals []float32
		want []string
	}{
		"all within":   {[]float32{-1.9, 0, 1.9}, []string{"−2 to 2"}},
		"two is later": {[]float32{0, 2}, []string{"−5 to −2", "−2 to 2", "2–5"}},
		"one side": {[]float32{-9, -3, 0, 1}, []string{
			"−10 to −5", "−5 to −2", "−2 to 2", "2–5", "5–10"}},
		"a few far": {append(ramp(40, -8, 8), 30), []string{
			"under −10", "−10 to −5", "−5 to −2", "−2 to 2", "2–5", "5–10", "10 or more"}},
		"many far": {ramp(41, -19, 19), []string{"−20 to −10", "−10 to −5", "−5 to 5", "5–10", "10–20"}},
	} {
		list := classes.Around(raster(c.vals...), 2)
		if got := words(list); !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
		for i, b := range classes.Breaks(list) {
			if other := classes.Breaks(list)[len(list)-2-i]; b != -other {
				t.Errorf("%s: limits %g and %g do not mirror", name, b, other)
			}
		}
	}
	if list := classes.Around(grid.NewRaster[float32](raster(1).Grid()), 2); list != nil {
		t.Errorf("nothing gives %v", list)
	}
}

// Areas of a lopsided grid weigh: the southern of two cells is the larger.
func TestQuantilesWeighByArea(t *testing.T) {
	g, err := grid.New(grid.Box{West: 0, South: 30, East: 1, North: 80}, 2, 1)
	if err != nil {
		t.Fatal(err)
	}
	r := grid.NewRaster[float32](g)
	r.Set(grid.Cell{Row: 0}, 7)
	r.Set(grid.Cell{Row: 1}, 3)
	// North of 55° lies (sin 80 − sin 55)/(sin 80 − sin 30) = 34.2 % of the area.
	if got, want := classes.Quantiles(r, 0.5, 0.65, 0.66, 1), []float64{3, 3, 7, 7}; !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	if got := classes.Quantiles(grid.NewRaster[float32](g), 0.5); got != nil {
		t.Errorf("nothing has the median %v", got)
	}
}
