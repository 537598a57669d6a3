package source

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"weekband/grid"
	"weekband/grid/source/geotiff"
)

// write puts a text into a file of the test's folder.
func write(t testing.TB, dir, name, text string) string {
	t.Helper()
	path := filepath.Join(dir, name)
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// ascGrid returns a grid of 2 rows × 3 columns with the given values.
func ascGrid(values string) string {
	return "ncols 3\nnrows 2\nxllcorner -91\nyllcorner 40\ndx 0.5\ndy 0.25\nNODATA_value -1\n" + values + "\n"
}

// monthly is the value of month m, 1 to 12, in the files of months.
func monthly(m int) float64 { return float64(2*m) + 0.5 }

// months writes 12 files with names by name, the fields 1 to 12.
func months(t testing.TB, name func(m int) string) []string {
	dir := t.TempDir()
	var paths []string
	for m := 1; m <= 12; m++ {
		v := monthly(m)
		paths = append(paths, write(t, dir, name(m), ascGrid(fmt.Sprintf("%g %g -1\n%g %g %g", v, v-9, v, v, v))))
	}
	return paths
}

func number(m int) string { return fmt.Sprintf("tavg_%02d.asc", m) }

func TestNormalsOrder(t *testing.T) {
	names := []string{"", "jan", "february", "Mar", "april", "may", "JUN", "july", "aug", "sept", "oct", "nov", "december"}
	for _, c := range []struct {
		name  string
		of    func(m int) string
		notes int
	}{
		{"numbers", number, 0},
		{"numbers without zeros", func(m int) string { return fmt.Sprintf("tavg%d.asc", m) }, 0},
		{"numbers among others", func(m int) string { return fmt.Sprintf("v2.1_1991-2020_10m_%d.asc", m) }, 0},
		{"names", func(m int) string { return "tavg-" + names[m] + "-1991.asc" }, 0},
		{"no numbers", func(m int) string { return "tavg" + string(rune('a'+m)) + ".asc" }, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			paths := months(t, c.of)
			slices.Reverse(paths)
			n, err := OpenNormals(paths, NormalsOptions{})
			if err != nil {
				t.Fatal(err)
			}
			defer n.Close()
			if len(n.Notes()) != c.notes {
				t.Errorf("notes %q", n.Notes())
			}
			var r Rows
			if err := n.Read(0, 2, &r); err != nil {
				t.Fatal(err)
			}
			for m := range 12 {
				if r.Vals[m][4] != float32(monthly(m+1)) {
					t.Errorf("month %d: %v", m+1, r.Vals[m][4])
				}
			}
		})
	}
}

func TestNormalsErrors(t *testing.T) {
	good := func(t *testing.T) []string { return months(t, number) }
	for _, c := range []struct {
		name  string
		paths func(t *testing.T) []string
		opts  NormalsOptions
		err   []string
	}{
		{"none", func(t *testing.T) []string { return nil }, NormalsOptions{}, []string{"no files"}},
		{"eleven", func(t *testing.T) []string { return slices.Delete(good(t), 4, 5) }, NormalsOptions{}, []string{"11 files", "by the names, May is missing"}},
		{"one of one layer", func(t *testing.T) []string { return good(t)[:1] }, NormalsOptions{}, []string{"1 layers"}},
		{"twice", func(t *testing.T) []string { p := good(t); p[6] = p[2]; return p }, NormalsOptions{}, []string{"both March", "July is missing"}},
		{"not there", func(t *testing.T) []string { p := good(t); p[6] += "x"; return p }, NormalsOptions{}, []string{"tavg_07.ascx"}},
		{"other grid", func(t *testing.T) []string {
			p := good(t)
			write(t, filepath.Dir(p[3]), "tavg_04.asc", strings.Replace(ascGrid("1 2 3 4 5 6"), "-91", "-90", 1))
			return p
		}, NormalsOptions{}, []string{"tavg_04.asc: its grid is not that of", "west -90", "west -91"}},
		{"other unit", func(t *testing.T) []string {
			p := good(t)
			write(t, filepath.Dir(p[8]), "tavg_09.asc", oneLayer(t, "degF"))
			return p
		}, NormalsOptions{}, []string{`tavg_09.asc: its unit is "degF"`}},
		{"unit unknown", good, NormalsOptions{Unit: "R"}, []string{`"R"`}},
		{"deviations without unit", good, NormalsOptions{Deviation: true}, []string{"unit of deviations"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := OpenNormals(c.paths(t), c.opts)
			for _, want := range c.err {
				if err == nil || !strings.Contains(err.Error(), want) {
					t.Errorf("error %v, want one with %q", err, want)
				}
			}
		})
	}
}

func TestNormalsRead(t *testing.T) {
	n, err := OpenNormals(months(t, number), NormalsOptions{Unit: "F"})
	if err != nil {
		t.Fatal(err)
	}
	defer n.Close()
	var r Rows
	if err := n.Read(0, 2, &r); err != nil {
		t.Fatal(err)
	}
	// 14.5 °F in July is −9.7222 °C; one cell has no value in any month.
	if got := r.Vals[6][0]; got != float32((14.5-32)/1.8) {
		t.Errorf("%v", got)
	}
	if want := []bool{true, true, false, true, true, true}; !slices.Equal(r.Has, want) || r.Partial != 0 {
		t.Errorf("%v, %d partial", r.Has, r.Partial)
	}
	if err := n.Read(1, 2, &r); err == nil {
		t.Error("rows beyond the grid were read")
	}
	if allocs := testing.AllocsPerRun(20, func() {
		if err := n.Read(1, 1, &r); err != nil {
			t.Fatal(err)
		}
	}); allocs > 0 && !raceDetector { // with it, pools forget at random
		t.Errorf("%v allocations", allocs)
	}
}

func TestNormalsPartial(t *testing.T) {
	paths := months(t, number)
	write(t, filepath.Dir(paths[4]), "tavg_05.asc", ascGrid("-1 5 -1\n5 5 -1"))
	n, err := OpenNormals(paths, NormalsOptions{})
	if err != nil {
		t.Fatal(err)
	}
	defer n.Close()
	var r Rows
	if err := n.Read(0, 2, &r); err != nil {
		t.Fatal(err)
	}
	if want := []bool{false, true, false, true, true, false}; !slices.Equal(r.Has, want) || r.Partial != 2 {
		t.Errorf("%v, %d partial", r.Has, r.Partial)
	}
}

// TestChunkRows asks for room in a file with tiles of 16 rows.
func TestChunkRows(t *testing.T) {
	g, err := grid.New(grid.Box{West: -91, East: -84, North: 42, South: 32}, 100, 10)
	if err != nil {
		t.Fatal(err)
	}
	n := &Normals{grid: g, layers: slices.Repeat([]layer{{from: &file{told: Description{BlockRows: 16}}}}, 12)}
	row := int64(10 * (4*12 + 3))
	for _, c := range []struct {
		bytes int64
		want  int
	}{{0, 1}, {row, 1}, {5 * row, 4}, {8 * row, 8}, {15 * row, 8}, {16 * row, 16}, {40 * row, 32}, {1 << 40, 100}} {
		if got := n.ChunkRows(c.bytes); got != c.want {
			t.Errorf("%d rows fit: %d, want %d", c.bytes/row, got, c.want)
		}
	}
}

func ExampleOpenNormals() {
	dir, err := os.MkdirTemp("", "normals")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.RemoveAll(dir)
	file, err := os.Create(filepath.Join(dir, "tavg.tif")) // invented: 12 months, in tenths of °C
	if err != nil {
		fmt.Println(err)
		return
	}
	defer file.Close()
	g, err := grid.New(grid.Box{West: -91, South: 40, East: -89.5, North: 40.5}, 2, 3)
	if err != nil {
		fmt.Println(err)
		return
	}
	err = geotiff.Encode(file, g, 12, func(layer, _, _ int, vals []float32, has []bool) error {
		for i := range vals {
			vals[i], has[i] = float32(-45+50*min(layer, 12-layer)), true
		}
		return nil
	}, geotiff.WriteOptions{Store: geotiff.Int16})
	if err != nil {
		fmt.Println(err)
		return
	}
	n, err := OpenNormals([]string{file.Name()}, NormalsOptions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	defer n.Close()
	var rows Rows
	if err := n.Read(0, 1, &rows); err != nil {
		fmt.Println(err)
		return
	}
	_, why := n.Scale()
	fmt.Println(why)
	fmt.Println("July:", rows.Vals[6], rows.Has)
	// Output:
	// values -45 to 255 look like tenths of a degree Celsius
	// July: [25.5 25.5 25.5] [true true true]
}
