package convert_test

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/convert"
	"weekband/grid/oracle"
	"weekband/grid/source"
)

// ramp writes an Esri ASCII grid of 20 rows and 30 columns of half a degree,
// 20 in the west and rising by 0.1 a column, as raw numbers times factor.
func ramp(t *testing.T, dir string) string {
	t.Helper()
	var b strings.Builder
	b.WriteString("ncols 30\nnrows 20\nxllcorner -100\nyllcorner 35\ncellsize 0.5\n")
	for range 20 {
		for col := range 30 {
			fmt.Fprintf(&b, "%g ", 20+float64(col)/10)
		}
		b.WriteByte('\n')
	}
	return written(t, dir, "ramp.asc", b.String())
}

func written(t *testing.T, dir, name, text string) string {
	t.Helper()
	path := filepath.Join(dir, name)
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// plane is Lambert's conformal conic projection over the ramp.
const plane = "+proj=lcc +lat_1=33 +lat_2=45 +lat_0=39 +lon_0=-96 +R=6371229"

// converted converts a raster that source refuses, and opens the copy.
func converted(t *testing.T, path string) (l source.Layers, how string) {
	t.Helper()
	_, cause := source.Open(path, source.Options{})
	if !convert.Wanted(cause) {
		t.Fatalf("%s: %v is nothing that a tool helps against", path, cause)
	}
	c := new(convert.Converter)
	t.Cleanup(func() { c.Close() })
	copied, how, err := c.Raster(t.Context(), path, "", cause)
	if err != nil {
		t.Fatal(err)
	}
	if l, err = source.Open(copied, source.Options{}); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { l.Close() })
	if strings.Contains(how, copied) || c.Original(copied) != path {
		t.Errorf("%q; the copy stands for %s", how, c.Original(copied))
	}
	return l, how
}

// checkRamp compares a layer with the ramp: values are the ramp's wherever
// there is one, and most of the ground has one.
func checkRamp(t *testing.T, l source.Layers, zero, tol float64) {
	t.Helper()
	g := l.Grid()
	vals, has := make([]float32, g.Cells()), make([]bool, g.Cells())
	if err := l.Read(0, 0, g.Rows(), vals, has); err != nil {
		t.Fatal(err)
	}
	inside, missing := 0, 0
	for i, v := range vals {
		lon := g.Box().West + (float64(i%g.Cols())+0.5)*g.StepLon()
		lat := g.Box().North - (float64(i/g.Cols())+0.5)*g.StepLat()
		want := 20 + (lon+99.75)/5 + zero
		switch core := lon > -99 && lon < -86 && lat > 36 && lat < 44; {
		case !has[i]:
			missing++
			if core {
				t.Fatalf("no value at %.2f, %.2f", lon, lat)
			}
		case core:
			inside++
			fallthrough
		default:
			if off := float64(v) - want; off > tol || off < -tol {
				t.Fatalf("%.3f at %.2f, %.2f; want %.3f", v, lon, lat, want)
			}
		}
	}
	if inside < 100 {
		t.Errorf("%d cells were compared, %d are missing", inside, missing)
	}
}

// A projected file without a number for missing cells has corners that the
// projection turns away from: they are missing, not 0.
func TestCornersOfWarpedRastersAreMissing(t *testing.T) {
	oracle.Need(t, "gdalwarp", "gdal_translate")
	dir := t.TempDir()
	all := filepath.Join(dir, "all.tif")
	oracle.Run(t, nil, "gdalwarp", "-q", "-s_srs", "EPSG:4326", "-t_srs", plane, "-r", "bilinear", "-tr", "40000", "40000", ramp(t, dir), all)
	part := filepath.Join(dir, "part.tif") // a rectangle of the plane that the ramp fills
	oracle.Run(t, nil, "gdal_translate", "-q", "-srcwin", "4", "5", "24", "18", "-a_nodata", "none", all, part)
	if info := string(oracle.Run(t, nil, "gdalinfo", part)); strings.Contains(info, "NoData") {
		t.Fatalf("the file tells a number for missing cells\n%s", info)
	}
	_, cause := source.Open(part, source.Options{})
	c := new(convert.Converter)
	defer c.Close()
	copied, how, err := c.Raster(t.Context(), part, "", cause)
	if err != nil || !strings.HasPrefix(how, "to longitudes and latitudes by gdalwarp (GDAL ") {
		t.Fatalf("%q, %v", how, err)
	}
	l, err := source.Open(copied, source.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	g := l.Grid()
	vals, has := make([]float32, g.Cells()), make([]bool, g.Cells())
	if err := l.Read(0, 0, g.Rows(), vals, has); err != nil {
		t.Fatal(err)
	}
	missing := 0
	for i, v := range vals {
		if !has[i] {
			missing++
		} else if v < 19.9 || v > 23 {
			t.Fatalf("cell %d is %v; the file holds 20 to 23", i, v)
		}
	}
	if missing == 0 || 2*missing > len(vals) {
		t.Errorf("%d of %d cells are missing", missing, len(vals))
	}
}

// Scaled whole numbers with a number for missing cells keep their meaning.
func TestWarpedRastersKeepScaleAndMissing(t *testing.T) {
	oracle.Need(t, "gdalwarp", "gdal_translate")
	dir := t.TempDir()
	whole, flat := filepath.Join(dir, "whole.tif"), filepath.Join(dir, "flat.tif")
	// 20.0 to 22.9 are written as 200 to 229.
	oracle.Run(t, nil, "gdal_translate", "-q", "-a_srs", "EPSG:4326", "-ot", "Int16", "-scale", "0", "100", "0", "1000", "-a_scale", "0.1", "-a_offset", "0", "-a_nodata", "-32768", ramp(t, dir), whole)
	oracle.Run(t, nil, "gdalwarp", "-q", "-t_srs", plane, "-r", "bilinear", "-tr", "20000", "20000", whole, flat)
	l, _ := converted(t, flat)
	checkRamp(t, l, 0, 0.12) // twice interpolated, once rounded to 0.1
}

// temperature makes GDAL write a GRIB message of an analysed temperature at
// the surface (WMO code table 4.2.0.0), in kelvins.
func temperature(t *testing.T, from, to string) {
	t.Helper()
	oracle.Run(t, nil, "gdal_translate", "-q", "-of", "GRIB", "-a_srs", srsOf(to), "-co", "DATA_ENCODING=SIMPLE_PACKING", "-co", "NBITS=16", "-co", "PDS_PDTN=0",
		"-co", "PDS_TEMPLATE_NUMBERS=0 0 0 255 0 0 0 0 1 0 0 0 0 1 0 0 0 0 0 255 255 255 255 255 255", from, to)
}

func srsOf(name string) string {
	if strings.Contains(name, "plane") {
		return plane
	}
	return "EPSG:4326"
}

// GRIB keeps its kelvins: a tool that turned them into °C would turn
// deviations too.
func TestGRIBKeepsItsUnit(t *testing.T) {
	oracle.Need(t, "gdal_translate")
	dir := t.TempDir()
	path := filepath.Join(dir, "june.grb")
	temperature(t, ramp(t, dir), path)
	l, how := converted(t, path)
	if !strings.HasPrefix(how, "to GeoTIFF by gdal_translate (GDAL ") {
		t.Errorf("%q", how)
	}
	checkRamp(t, l, 273.15, 0.001)
}

// GRIB on a plane takes two tools, one after the other.
func TestGRIBOnAPlane(t *testing.T) {
	oracle.Need(t, "gdal_translate", "gdalwarp")
	dir := t.TempDir()
	flat, path := filepath.Join(dir, "flat.tif"), filepath.Join(dir, "plane.grb")
	oracle.Run(t, nil, "gdalwarp", "-q", "-s_srs", "EPSG:4326", "-t_srs", plane, "-r", "bilinear", "-tr", "20000", "20000", "-te", "-250000", "-300000", "700000", "500000", ramp(t, dir), flat)
	temperature(t, flat, path)
	_, cause := source.Open(path, source.Options{})
	c := new(convert.Converter)
	defer c.Close()
	copied, how, err := c.Raster(t.Context(), path, "", cause)
	if err != nil || !strings.Contains(how, "gdal_translate") || !strings.Contains(how, ", then to longitudes and latitudes by gdalwarp") {
		t.Fatalf("%q, %v", how, err)
	}
	if got := c.Original("in " + copied + ", layer 2"); got != "in "+path+", layer 2" {
		t.Errorf("%q", got)
	}
	l, err := source.Open(copied, source.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	cells := l.Grid().Cells()
	vals, has := make([]float32, cells), make([]bool, cells)
	if err := l.Read(0, 0, l.Grid().Rows(), vals, has); err != nil {
		t.Fatal(err)
	}
	for i, v := range vals {
		if has[i] && (v < 293 || v > 296.2) {
			t.Fatalf("cell %d is %v; the file holds 293.15 to 296.05", i, v)
		}
	}
}

// A tool that reads a part of a damaged file only warns; the warning is
// passed on.
func TestWarningsArePassedOn(t *testing.T) {
	oracle.Need(t, "gdal_translate")
	dir := t.TempDir()
	good := filepath.Join(dir, "good.grb")
	temperature(t, ramp(t, dir), good)
	message, err := os.ReadFile(good)
	if err != nil {
		t.Fatal(err)
	}
	bad := written(t, dir, "bad.grb", string(message)+"GRIB\xff\xff\x00\x02\xff\xff\xff\xff\xff\xff\xff\xff"+strings.Repeat("x", 400))
	_, how := converted(t, bad)
	if !strings.Contains(how, ", which said: ") || !strings.Contains(how, "Warning") {
		t.Errorf("%q", how)
	}
}

// Nothing is written beside the input, copies go when the converter closes,
// and the same file gives the same copy.
func TestCopiesAreElsewhereAndGo(t *testing.T) {
	oracle.Need(t, "nccopy", "ncgen")
	dir := t.TempDir()
	cdl := written(t, dir, "x.cdl", "netcdf x { dimensions: lat = 2, lon = 2; variables: float lat(lat), lon(lon), t(lat, lon); data: lat = 1, 2; lon = 3, 4; t = 1, 2, 3, 4; }")
	path := filepath.Join(dir, "x.nc")
	oracle.Run(t, nil, "ncgen", "-k", "nc4", "-o", path, cdl)
	before := names(t, dir)
	temp := t.TempDir()
	t.Setenv("TMPDIR", temp)
	_, cause := source.Open(path, source.Options{})
	c := new(convert.Converter)
	var texts [2]string
	for i := range texts {
		copied, how, err := c.Raster(t.Context(), path, "", cause)
		if err != nil || !strings.HasPrefix(how, "NetCDF-4 to NetCDF classic by nccopy (netCDF library ") || filepath.Base(copied) != "x.nc" {
			t.Fatalf("%s, %q, %v", copied, how, err)
		}
		text, err := os.ReadFile(copied)
		if err != nil {
			t.Fatal(err)
		}
		texts[i] = string(text)
	}
	if texts[0] != texts[1] {
		t.Error("two copies differ")
	}
	if after := names(t, dir); after != before {
		t.Errorf("beside the input: %s, before: %s", after, before)
	}
	if names(t, temp) == "" {
		t.Error("the copies are not in the folder for temporary files")
	}
	if err := c.Close(); err != nil || names(t, temp) != "" {
		t.Errorf("left over: %s, %v", names(t, temp), err)
	}
}

func names(t *testing.T, dir string) string {
	t.Helper()
	list, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	for _, e := range list {
		b.WriteString(e.Name() + " ")
	}
	return b.String()
}

// A file that refers to others is not followed, though GDAL could.
func TestReferencesAreNotFollowed(t *testing.T) {
	oracle.Need(t, "gdal_translate")
	dir := t.TempDir()
	ramp(t, dir)
	vrt := filepath.Join(dir, "refers.vrt")
	oracle.Run(t, nil, "gdal_translate", "-q", "-of", "VRT", filepath.Join(dir, "ramp.asc"), vrt)
	_, cause := source.Open(vrt, source.Options{})
	c := new(convert.Converter)
	defer c.Close()
	if copied, _, err := c.Raster(t.Context(), vrt, "", cause); err == nil {
		t.Errorf("%s was made", copied)
	}
}

func TestOnlyPlainFilesAreConverted(t *testing.T) {
	cause := &source.FormatError{Name: "x"}
	for _, path := range []string{"/vsicurl/http://localhost/x.grb", "/vsimem/x", "http://localhost/x.grb", t.TempDir(), filepath.Join(t.TempDir(), "none")} {
		c := new(convert.Converter)
		if _, _, err := c.Raster(t.Context(), path, "", cause); err == nil || !errors.Is(err, error(cause)) {
			t.Errorf("%s: %v", path, err)
		}
	}
}

// What cannot be done here is told so that it can be done by hand.
func TestMessagesSayWhatToRun(t *testing.T) {
	dir := t.TempDir()
	path := written(t, dir, "my field.grb", "GRIB and then nothing of the kind")
	_, cause := source.Open(path, source.Options{})
	try := func(wants ...string) {
		t.Helper()
		c := new(convert.Converter)
		defer c.Close()
		_, _, err := c.Raster(t.Context(), path, "", cause)
		for _, want := range wants {
			if err == nil || !strings.Contains(err.Error(), want) {
				t.Errorf("%v\nlacks %q", err, want)
			}
		}
	}
	hand := "gdal_translate -of GTiff '" + path + "' 'my field.tif'"
	oracle.Need(t, "gdal_translate")
	try("could not convert it", hand)
	t.Setenv("PATH", t.TempDir())
	try("of no known format", "gdal-bin", hand)
}

// The words for a copy are those for the file, and the error stays what it
// was.
func TestRestore(t *testing.T) {
	c := new(convert.Converter)
	if err := c.Restore(nil); err != nil {
		t.Error(err)
	}
	cause := &source.FormatError{Name: "x"}
	if got := c.Restore(cause); got != error(cause) {
		t.Error(got)
	}
}

func ExampleWanted() {
	_, err := source.Decode(strings.NewReader("GRIB, say"), 9, "july.grb", source.Options{})
	fmt.Println(err, "–", convert.Wanted(err))
	_, err = source.Decode(strings.NewReader(""), 0, "empty.tif", source.Options{})
	fmt.Println(err, "–", convert.Wanted(err))
	// Output:
	// july.grb: the first bytes "GRIB, say" are of no known format; want an Esri ASCII grid, a GeoTIFF or NetCDF classic – true
	// empty.tif: the file is empty; want an Esri ASCII grid, a GeoTIFF or NetCDF classic – false
}
