package geotiff

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"weekband/grid"
	"weekband/grid/oracle"
)

// gdal runs one of GDAL's programs (gdal.org; 3.6.2 here), the reference
// these tests compare with. It skips when GDAL is not installed.
func gdal(t *testing.T, program string, args ...string) string {
	t.Helper()
	return string(oracle.Run(t, nil, program, args...))
}

// writeASC writes a plan's bands as text for GDAL to read, so that fixtures
// do not pass through our writer.
func (p plan) writeASC(t *testing.T, dir string) string {
	t.Helper()
	args := []string{"-q", "-separate", filepath.Join(dir, "all.vrt")}
	for band := range p.bands {
		var b strings.Builder
		fmt.Fprintf(&b, "ncols %d\nnrows %d\nxllcorner -91\nyllcorner %g\ndx 0.5\ndy 0.25\nNODATA_value -9\n", p.cols, p.rows, 42-0.25*float64(p.rows))
		for row := range p.rows {
			for col := range p.cols {
				b.WriteString(strconv.FormatFloat(p.value(band, row, col), 'g', -1, 64) + " ")
			}
			b.WriteString("\n")
		}
		name := filepath.Join(dir, fmt.Sprintf("%d.asc", band))
		if err := os.WriteFile(name, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
		args = append(args, name)
	}
	gdal(t, "gdalbuildvrt", args...)
	return args[2]
}

func TestReadWhatGDALWrites(t *testing.T) {
	if testing.Short() {
		t.Skip("runs GDAL some 90 times")
	}
	dir := t.TempDir()
	for kind, name := range map[sample]string{int16s: "Int16", int32s: "Int32", float32s: "Float32", float64s: "Float64"} {
		p := small(kind)
		vrt := p.writeASC(t, t.TempDir())
		for _, comp := range []string{"NONE", "PACKBITS", "DEFLATE", "LZW", "ZSTD"} {
			for predictor := 1; predictor <= 3; predictor++ {
				if predictor > 1 && (comp == "NONE" || comp == "PACKBITS") || predictor == 3 && kind < float32s {
					continue
				}
				for variant := range 4 {
					if (comp != "DEFLATE" || kind != float32s && kind != int16s) && variant != 1 && variant != 2 {
						continue // the layout is decoded apart from the compression
					}
					out := filepath.Join(dir, "x.tif")
					args := []string{"-q", vrt, out, "-ot", name, "-a_srs", "EPSG:4326", "-co", "COMPRESS=" + comp}
					if predictor > 1 {
						args = append(args, "-co", fmt.Sprint("PREDICTOR=", predictor))
					}
					args = append(args, "-co", "INTERLEAVE="+[]string{"PIXEL", "BAND"}[variant&1])
					if variant&2 != 0 {
						args = append(args, "-co", "TILED=YES", "-co", "BLOCKXSIZE=16", "-co", "BLOCKYSIZE=32")
					} else {
						args = append(args, "-co", "BLOCKYSIZE=5")
					}
					if predictor != 3 && (kind == int16s || kind == float64s) { // GDAL 3.6.2 writes big-endian with predictor 3 wrongly
						args = append(args, "-co", "ENDIANNESS=BIG", "-co", "BIGTIFF=YES")
					}
					t.Run(strings.Join(args[3:], " "), func(t *testing.T) {
						gdal(t, "gdal_translate", args...)
						b, err := os.ReadFile(out)
						if err != nil {
							t.Fatal(err)
						}
						check(t, open(t, b, Options{}), p.rows, p.cols, 6, p.want)
					})
				}
			}
		}
	}
}

func TestReadPixelIsPointOfGDAL(t *testing.T) {
	p := small(float32s)
	out := filepath.Join(t.TempDir(), "x.tif")
	gdal(t, "gdal_translate", "-q", p.writeASC(t, t.TempDir()), out, "-a_srs", "EPSG:4269", "-mo", "AREA_OR_POINT=Point")
	b, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	f := open(t, b, Options{})
	if got := f.Frame(); got.West != -91 || got.North != 42 || f.Info().CRS != "geographic, EPSG:4269" {
		t.Errorf("%+v %+v", got, f.Info())
	}
}

func testGrid(t testing.TB, rows, cols int) grid.Grid {
	g, err := grid.New(grid.Box{West: -91, East: -91 + 0.5*float64(cols), North: 42, South: 42 - 0.25*float64(rows)}, rows, cols)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

// from fills rows from a plan's values.
func (p plan) from(layer, first, n int, vals []float32, has []bool) error {
	for i := range vals {
		v, ok := p.want(layer, first+i/p.cols, i%p.cols)
		vals[i], has[i] = float32(v), ok
	}
	return nil
}

// TestGDALReadsWhatWeWrite compares GDAL's text of each band with the values.
func TestGDALReadsWhatWeWrite(t *testing.T) {
	p := small(float32s)
	p.rows, p.cols = 300, 211 // several strips
	for _, opts := range []WriteOptions{
		{Names: []string{"one & only", "", "<3>"}, Unit: "day", Description: "a test"},
		{Store: Int16, Scale: 0.125, Offset: 10},
		{Store: Int16, Scale: 0.125, Names: []string{"large"}, Unit: "K", Big: true},
	} {
		t.Run(fmt.Sprintf("%v big=%t", opts.Store, opts.Big), func(t *testing.T) {
			p := p
			if opts.Big {
				p.rows = 40
			}
			var buf bytes.Buffer
			if err := Encode(&buf, testGrid(t, p.rows, p.cols), p.bands, p.from, opts); err != nil {
				t.Fatal(err)
			}
			file := filepath.Join(t.TempDir(), "x.tif")
			if err := os.WriteFile(file, buf.Bytes(), 0o644); err != nil {
				t.Fatal(err)
			}
			for band := range p.bands {
				text := gdal(t, "gdal_translate", "-q", "-unscale", "-ot", "Float32", "-b", strconv.Itoa(band+1), "-of", "XYZ", file, "/vsistdout/")
				lines := strings.Split(strings.TrimSpace(text), "\n")
				if len(lines) != p.rows*p.cols {
					t.Fatalf("%d lines", len(lines))
				}
				for i, line := range lines {
					var x, y, v float64
					if _, err := fmt.Sscan(line, &x, &y, &v); err != nil {
						t.Fatal(err)
					}
					row, col := i/p.cols, i%p.cols
					want, ok := p.want(band, row, col)
					if !ok {
						want = NoData
					}
					if v != want || x != -91+0.5*(float64(col)+0.5) || y != 42-0.25*(float64(row)+0.5) {
						t.Fatalf("band %d, row %d, column %d: %s, want %g", band, row, col, line, want)
					}
				}
			}
			info := gdal(t, "gdalinfo", file)
			for _, want := range []string{"NoData Value=-9999", `ID["EPSG",4326]`, "AREA_OR_POINT=Area", "COMPRESSION=DEFLATE"} {
				if !strings.Contains(info, want) {
					t.Errorf("no %q in\n%s", want, info)
				}
			}
			for _, want := range append(opts.Names, opts.Description) {
				if !strings.Contains(info, want) {
					t.Errorf("no %q in\n%s", want, info)
				}
			}
		})
	}
}
