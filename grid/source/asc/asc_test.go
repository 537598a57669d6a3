package asc

import (
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"weekband/grid/oracle"
	"weekband/grid/source/frame"
)

func open(text string) (*File, error) {
	return Open(strings.NewReader(text), int64(len(text)), "t.asc")
}

// read returns rows [first, first+rows) as words, "." where there is none.
func read(f *File, first, rows int) (string, error) {
	n := rows * f.Frame().Cols
	vals, has := make([]float32, n), make([]bool, n)
	if err := f.Read(0, first, rows, vals, has); err != nil {
		return "", err
	}
	words := make([]string, n)
	for i, v := range vals {
		if words[i] = "."; has[i] {
			words[i] = strconv.FormatFloat(float64(v), 'g', -1, 32)
		} else if v != 0 {
			words[i] = "not cleared"
		}
	}
	return strings.Join(words, " "), nil
}

const head = "ncols 3\nnrows 2\nxllcorner -91\nyllcorner 40\ncellsize 0.5\n"

func TestOpenFrame(t *testing.T) {
	plain := frame.Frame{West: -91, North: 41, StepLon: 0.5, StepLat: 0.5, Rows: 2, Cols: 3}
	for _, c := range []struct {
		name, head string
		want       frame.Frame
		nodata     string
	}{
		{"plain", head, plain, "-9999 (by default)"},
		{"any order and case", "CELLSIZE 5e-1 NROWS 2\r\nYllCorner 40 nodata_value -1\r\nXLLCORNER -91\r\nNCols 3\r\n", plain, "-1"},
		{"centres", "ncols 3\nnrows 2\nxllcenter -90.75\nyllcentre 40.25\ncellsize 0.5\nNODATA nan\n", plain, "nan"},
		{"two steps", "ncols 3\nnrows 2\nxllcorner -91\nyllcorner 40\ndx 0.5\ndy 0.25\n",
			frame.Frame{West: -91, North: 40.5, StepLon: 0.5, StepLat: 0.25, Rows: 2, Cols: 3}, "-9999 (by default)"},
		{"huge nodata", head + "NODATA_value -1.797693e+308\n", plain, "-1.797693e+308"},
	} {
		t.Run(c.name, func(t *testing.T) {
			f, err := open(c.head + "1 2 3\n4 5 6\n")
			if err != nil {
				t.Fatal(err)
			}
			if f.Frame() != c.want || f.NoData() != c.nodata {
				t.Errorf("%+v, nodata %s", f.Frame(), f.NoData())
			}
			if got, err := read(f, 0, 2); got != "1 2 3 4 5 6" {
				t.Errorf("%s, %v", got, err)
			}
		})
	}
}

func TestReadValues(t *testing.T) {
	for _, c := range []struct{ name, body, want string }{
		{"lines as rows", "1 2 3\n4 5 6\n", "1 2 3 4 5 6"},
		{"one line", "1 2 3 4 5 6", "1 2 3 4 5 6"},
		{"one column, CRLF", "1\r\n2\r\n3\r\n4\r\n5\r\n6\r\n", "1 2 3 4 5 6"},
		{"blanks", "\n\n  1\t2 \v3\f4 5   \n\n6\n\n", "1 2 3 4 5 6"},
		{"nodata", "1 -9999 3 -9999.0 -9.999e3 6", "1 . 3 . . 6"},
		{"nan", "1 nan -NaN NAN 5 6", "1 . . . 5 6"},
		{"forms", "+1. -.5 1e2 -1.25E-1 007 -0", "1 -0.5 100 -0.125 7 -0"},
	} {
		t.Run(c.name, func(t *testing.T) {
			f, err := open(head + c.body)
			if err != nil {
				t.Fatal(err)
			}
			if got, err := read(f, 0, 2); got != c.want || err != nil {
				t.Errorf("%s, %v, want %s", got, err, c.want)
			}
			words := strings.Fields(c.want)
			if got, err := read(f, 1, 1); got != strings.Join(words[3:], " ") || err != nil {
				t.Errorf("second row %s, %v", got, err)
			}
		})
	}
}

func TestErrors(t *testing.T) {
	for _, c := range []struct{ name, text, err string }{
		{"empty", "", "no ncols"},
		{"no header", "1 2 3", "no ncols"},
		{"unknown key", "ncols 3\nwidth 2\n", `t.asc:2:1: header key "width"`},
		{"twice", "ncols 3\n ncols 2\n", "t.asc:2:2: header key ncols stands twice"},
		{"not a number", "ncols x\n", `t.asc:1:7: ncols is "x"`},
		{"infinite", "cellsize inf\n", `cellsize is "inf"`},
		{"ends in the header", "ncols", `ncols is ""`},
		{"half a column", strings.Replace(head, "ncols 3", "ncols 3.5", 1), "ncols is 3.5"},
		{"no rows", strings.Replace(head, "nrows 2", "nrows 0", 1), "nrows is 0"},
		{"negative step", strings.Replace(head, "0.5", "-0.5", 1), "cellsize is -0.5"},
		{"no step", strings.Replace(head, "cellsize 0.5", "", 1), "no cellsize"},
		{"no corner", strings.Replace(head, "xllcorner -91", "", 1), "neither xllcorner nor xllcenter"},
		{"corner and centre", head + "xllcenter 3\n", "both xllcorner and xllcenter"},
		{"cut short", head + "1 2 3\n44 55", "the file ends after 5 values, in row 1"},
		{"too many", head + "1 2 3\n4 5 6\n7", "t.asc:8:1: a value after the last"},
		{"cut very short", head + "1 2 3\n4 5", "cannot hold 2 rows × 3 columns"},
		{"absurd", strings.Replace(head, "3", "2000000000", 1) + "1 2 3", "cannot hold"},
		{"word", head + "1 2 3\n4 five 6", `t.asc:7:3: "five" is not a number`},
		{"infinity", head + "1 2 3\n4 5 Inf", `t.asc:7:5: "Inf" is not a number`},
		{"too large", head + "1 2 3\n4 5 1e39", "t.asc:7:5: 1e39 is too large"},
		{"base 16", head + "1 2 3\n4 5 0x10", `"0x10" is not a number`},
		{"underscore", head + "1 2 3\n4 5 1_0", `"1_0" is not a number`},
		{"comma", head + "1 2 3\n4 5 6,5", `"6,5" is not a number`},
		{"sign only", head + "1 2 3\n4 5 -", `"-" is not a number`},
		{"long word", head + "1 2 3 4 5 " + strings.Repeat("1", 3*bufSize), "more than 400 characters"},
	} {
		t.Run(c.name, func(t *testing.T) {
			f, err := open(c.text)
			if err == nil {
				_, err = read(f, 0, 2)
			}
			if err == nil || !strings.Contains(err.Error(), c.err) || !strings.HasPrefix(err.Error(), "t.asc:") {
				t.Errorf("error %.200v, want one with %q", err, c.err)
			}
		})
	}
	f, err := open(head + "1 2 3 4 5 6")
	if err != nil {
		t.Fatal(err)
	}
	if err := f.Read(0, 1, 2, make([]float32, 6), make([]bool, 6)); err == nil {
		t.Error("rows beyond the end were read")
	}
}

// TestParseRoundsLikeStrconv compares with the standard library.
func TestParseRoundsLikeStrconv(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	texts := []string{"16777217", "16777219", "0.1", "8388608.5", "9007199791611905", "33554434.0000001", "1e10", "999999999999999", "9999999999999999", "0.000000000000000000001"}
	for range 200000 {
		texts = append(texts, strconv.FormatFloat(r.NormFloat64()*math.Pow(10, float64(r.IntN(9)-2)), 'f', r.IntN(9), 64))
	}
	for range 20000 { // halfway between two float32
		a := math.Float32frombits(0x3f800000 + uint32(r.IntN(1<<27)))
		mid := (float64(a) + float64(math.Nextafter32(a, math.MaxFloat32))) / 2
		texts = append(texts, strconv.FormatFloat(mid, 'f', -1, 64))
	}
	for _, s := range texts {
		want, err := strconv.ParseFloat(s, 32)
		if err != nil {
			t.Fatal(err)
		}
		if got, ok := parse([]byte(s)); !ok || got != float32(want) {
			t.Fatalf("%s: %v %v, want %v", s, got, ok, float32(want))
		}
	}
}

// long is a grid longer than several buffers, with values of many widths.
func long(rows, cols int) (string, func(row, col int) float32) {
	value := func(row, col int) float32 { return float32((row*cols+col)*7919%100003) / 8 }
	var b strings.Builder
	fmt.Fprintf(&b, "ncols %d\nnrows %d\nxllcorner -91\nyllcorner 40\ncellsize 0.001\n", cols, rows)
	for i := range rows * cols {
		b.WriteString(strconv.FormatFloat(float64(value(i/cols, i%cols)), 'f', -1, 32))
		b.WriteString([]string{" ", "\n", "  ", "\r\n"}[i*31%7%4])
	}
	return b.String(), value
}

func TestReadLong(t *testing.T) {
	const rows, cols = 401, 733
	text, value := long(rows, cols)
	f, err := open(text)
	if err != nil {
		t.Fatal(err)
	}
	for _, every := range []int{1, 7} { // as in a file with more rows than the index holds
		if every > 1 {
			g := f
			f = &File{r: g.r, size: g.size, name: g.name, frame: g.frame, nodata: g.nodata, every: every}
			f.pool.New = g.pool.New
			for i := 0; i < rows; i += every {
				f.starts = append(f.starts, g.starts[i])
			}
		}
		for first := 0; first < rows; first += 50 {
			n := min(60, rows-first)
			vals, has := make([]float32, n*cols), make([]bool, n*cols)
			if err := f.Read(0, first, n, vals, has); err != nil {
				t.Fatal(err)
			}
			for i, v := range vals {
				if want := value(first+i/cols, i%cols); v != want || !has[i] {
					t.Fatalf("row %d, column %d: %v, want %v", first+i/cols, i%cols, v, want)
				}
			}
		}
	}
}

// TestReadWhatGDALWrites reads grids that gdal_translate wrote (gdal.org).
func TestReadWhatGDALWrites(t *testing.T) {
	oracle.Need(t, "gdal_translate")
	dir := t.TempDir()
	in, out := filepath.Join(dir, "in.xyz"), filepath.Join(dir, "out.asc")
	var b strings.Builder
	for i := range 5 * 7 {
		fmt.Fprintf(&b, "%g %g %g\n", -90.75+0.5*float64(i%7), 41.875-0.25*float64(i/7), float64(i)/3)
	}
	if err := os.WriteFile(in, []byte(b.String()), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, option := range []string{"FORCE_CELLSIZE=NO", "SIGNIFICANT_DIGITS=9"} {
		if msg, err := exec.Command("gdal_translate", "-q", "-of", "AAIGrid", "-a_nodata", "2", "-co", option, in, out).CombinedOutput(); err != nil {
			t.Fatalf("%v\n%s", err, msg)
		}
		text, err := os.ReadFile(out)
		if err != nil {
			t.Fatal(err)
		}
		f, err := Open(bytes.NewReader(text), int64(len(text)), "out.asc")
		if err != nil {
			t.Fatal(err)
		}
		want := frame.Frame{West: -91, North: 42, StepLon: 0.5, StepLat: 0.25, Rows: 5, Cols: 7}
		if !f.Frame().Near(want) {
			t.Errorf("%+v", f.Frame())
		}
		vals, has := make([]float32, 35), make([]bool, 35)
		if err := f.Read(0, 0, 5, vals, has); err != nil {
			t.Fatal(err)
		}
		for i, v := range vals {
			if has[i] != (i != 6) || has[i] && math.Abs(float64(v)-float64(i)/3) > 1e-5 {
				t.Errorf("cell %d: %v %v", i, v, has[i])
			}
		}
	}
}

func FuzzDecode(f *testing.F) {
	f.Add([]byte(head + "1 2 3\n4 5 6\n"))
	f.Add([]byte("NROWS 1 ncols 2 dx 1 dy 2 xllcenter 0 yllcenter 1e0\r\nnodata nan\r\n-1.5e3 NaN"))
	f.Fuzz(func(t *testing.T, b []byte) {
		g, err := Open(bytes.NewReader(b), int64(len(b)), "t.asc")
		if err == nil && g.Frame().Rows*g.Frame().Cols < 1<<20 {
			_, err = read(g, 0, g.Frame().Rows)
		}
		if err != nil && !strings.HasPrefix(err.Error(), "t.asc:") {
			t.Errorf("no name in %q", err)
		}
	})
}

func BenchmarkRead(b *testing.B) {
	const rows, cols = 400, 1000
	text, _ := long(rows, cols)
	f, err := open(text)
	if err != nil {
		b.Fatal(err)
	}
	vals, has := make([]float32, 20*cols), make([]bool, 20*cols)
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		for first := 0; first < rows; first += 20 {
			if err := f.Read(0, first, 20, vals, has); err != nil {
				b.Fatal(err)
			}
		}
	}
	b.ReportMetric(float64(b.N)*rows*cols/b.Elapsed().Seconds()/1e6, "Mcells/s")
}

func BenchmarkOpen(b *testing.B) {
	text, _ := long(400, 1000)
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		if _, err := open(text); err != nil {
			b.Fatal(err)
		}
	}
}

func Example() {
	text := "ncols 3\nnrows 2\nxllcorner -91\nyllcorner 40\ncellsize 0.5\nNODATA_value -1\n" +
		"12.5 13 -1\n11 -1 12.25\n"
	f, err := Open(strings.NewReader(text), int64(len(text)), "march.asc")
	if err != nil {
		fmt.Println(err)
		return
	}
	vals, has := make([]float32, 3), make([]bool, 3)
	if err := f.Read(0, 1, 1, vals, has); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(vals, has)
	// Output: [11 0 12.25] [true false true]
}
