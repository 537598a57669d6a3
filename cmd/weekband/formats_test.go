package main

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/oracle"
	"weekband/grid/source"
	"weekband/grid/weeks"
)

// monthsOf reads all months of the inputs' normals.
func monthsOf(t *testing.T, n weeks.Normals) source.Rows {
	t.Helper()
	var rows source.Rows
	if err := n.Read(0, n.Grid().Rows(), &rows); err != nil {
		t.Fatal(err)
	}
	return rows
}

func worldRecipe(file, variable, measures string) string {
	return fmt.Sprintf(`
title: The world
edition: 2027
normals: {files: [%q], variable: %s, measures: %s}
windows: [{id: spring, title: Spring, threshold: 55 °F}]
`, file, variable, measures)
}

// NetCDF-4 comes in through nccopy, and through GDAL where nccopy is not
// installed; both give the same temperatures.
func TestNetCDF4ComesInThroughTools(t *testing.T) {
	unraced(t)
	file := oracle.Data(t, "formats/air-ltm-netcdf4.nc")
	oracle.Need(t, "nccopy", "gdal_translate")
	in, fields := opened(t, t.TempDir(), worldRecipe(file, "air", "air"))
	if notes := strings.Join(in.Notes, "\n"); !strings.Contains(notes, "air-ltm-netcdf4.nc was converted NetCDF-4 to NetCDF classic by nccopy") {
		t.Errorf("notes:\n%s", notes)
	}
	want := monthsOf(t, in.Normals)

	// Alaska's interior never warms to 55 °F early, the Amazon is always above,
	// and the middle of North America crosses in spring.
	f := fields[0]
	for _, c := range []struct {
		at     grid.LonLat
		reason crossing.Reason
	}{{grid.LonLat{Lon: -60, Lat: -5}, crossing.Always}, {grid.LonLat{Lon: -40, Lat: 72}, crossing.Never}, {grid.LonLat{Lon: -90, Lat: 40}, crossing.Dated}} {
		cell, _ := f.Grid().Locate(c.at)
		if got, _ := f.Reason.At(cell); got != c.reason {
			t.Errorf("%v: %v, want %v", c.at, got, c.reason)
		}
	}

	bin := t.TempDir() // a PATH with GDAL alone
	for _, tool := range []string{"gdal_translate"} {
		path := string(oracle.Run(t, nil, "sh", "-c", "command -v "+tool))
		if err := os.Symlink(strings.TrimSpace(path), filepath.Join(bin, tool)); err != nil {
			t.Fatal(err)
		}
	}
	t.Setenv("PATH", bin)
	other, _ := opened(t, t.TempDir(), worldRecipe(file, "air", "air"))
	got := monthsOf(t, other.Normals)
	for m := range want.Vals {
		for i, ok := range want.Has {
			if ok != got.Has[i] || ok && want.Vals[m][i] != got.Vals[m][i] {
				t.Fatalf("month %d, cell %d: %v through GDAL, %v through nccopy", m+1, i, got.Vals[m][i], want.Vals[m][i])
			}
		}
	}
}

// Without any tool the message says what to install.
func TestWithoutToolsTheMessageSaysWhatToInstall(t *testing.T) {
	dir, text := unpacked(t)
	t.Setenv("PATH", t.TempDir())
	for name, head := range map[string]string{"hdf.nc": "\x89HDF\r\n\x1a\n", "grib.grb": "GRIB....", "shapes.shp": "\x00\x00\x27\x0a"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(head+strings.Repeat("x", 200)), 0o644); err != nil {
			t.Fatal(err)
		}
		broken := strings.Replace(text, "files: [normals.tif]", "files: ["+name+"]", 1)
		if name == "shapes.shp" {
			broken = strings.Replace(text, "file: regions.geojson", "file: "+name, 1)
		}
		r, err := recipe.Decode([]byte(broken), "recipe.yaml")
		if err != nil {
			t.Fatal(err)
		}
		if _, err := inputs.Open(t.Context(), r, dir, inputs.MostCells); err == nil || !strings.Contains(err.Error(), "install the package") || !strings.Contains(err.Error(), name) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A file that no tool can read either is refused with both answers.
func TestNonsenseIsRefusedByTheToolsToo(t *testing.T) {
	oracle.Need(t, "gdal_translate")
	dir, text := unpacked(t)
	if err := os.WriteFile(filepath.Join(dir, "x.grb"), []byte("GRIB and then nothing of the kind"), 0o644); err != nil {
		t.Fatal(err)
	}
	r, err := recipe.Decode([]byte(strings.Replace(text, "files: [normals.tif]", "files: [x.grb]", 1)), "recipe.yaml")
	if err != nil {
		t.Fatal(err)
	}
	_, err = inputs.Open(t.Context(), r, dir, inputs.MostCells)
	if err == nil || !strings.Contains(err.Error(), "of no known format") || !strings.Contains(err.Error(), "could not convert") {
		t.Errorf("got %v", err)
	}
}

// Soil temperature on a Gaussian grid: no soil model, uneven latitudes, and a
// masked sea.
func TestGaussianSoilComesIn(t *testing.T) {
	file := oracle.Data(t, "formats/soil-ltm-gaussian-grid.nc")
	oracle.Need(t, "nccopy")
	in, fields := opened(t, t.TempDir(), worldRecipe(file, "tmp", "soil"))
	if notes := strings.Join(in.Notes, "\n"); !strings.Contains(notes, "Gaussian") {
		t.Errorf("notes:\n%s", notes)
	}
	f := fields[0]
	middle, _ := f.Grid().Locate(grid.LonLat{Lon: -90, Lat: 40})
	unwrapped, ok := f.Day.At(middle)
	if day := weeks.DayOfYear(unwrapped); !ok || day < 91 || day > 150 { // a coarse reanalysis: April or May
		t.Errorf("the Midwest crosses on day %v (%v)", day, ok)
	}
	sea, _ := f.Grid().Locate(grid.LonLat{Lon: -40, Lat: 30})
	if r, ok := f.Reason.At(sea); ok {
		t.Errorf("the Atlantic is %v", r)
	}
}

// A projected GeoTIFF and a shapefile, made by GDAL from the demo's files,
// give nearly the demo's days.
func TestProjectedRastersAndShapefiles(t *testing.T) {
	unraced(t)
	oracle.Need(t, "gdalwarp", "ogr2ogr")
	dir, text := unpacked(t)
	_, want := opened(t, dir, text)
	oracle.Run(t, nil, "gdalwarp", "-q", "-t_srs", "+proj=aea +lat_1=33 +lat_2=39 +lon_0=-48 +datum=WGS84", "-tr", "6000", "6000", "-r", "bilinear",
		filepath.Join(dir, "normals.tif"), filepath.Join(dir, "projected.tif"))
	oracle.Run(t, nil, "ogr2ogr", "-f", "ESRI Shapefile", filepath.Join(dir, "shapes.shp"), filepath.Join(dir, "regions.geojson"))
	text = strings.Replace(text, "files: [normals.tif]", "files: [projected.tif]", 1)
	text = strings.Replace(text, "file: regions.geojson", "file: shapes.shp", 1)
	in, got := opened(t, dir, text)
	if len(in.Areas.Regions) != 18 {
		t.Errorf("%d regions", len(in.Areas.Regions))
	}
	sum, n := 0.0, 0.0
	for cell, day := range got[0].Day.All() {
		at, _ := want[0].Grid().Locate(got[0].Grid().Center(cell))
		if other, ok := want[0].Day.At(at); ok {
			sum += max(float64(day-other), float64(other-day))
			n++
		}
	}
	if n < 3000 || sum/n > 3 {
		t.Errorf("%v cells lie %.2f days apart on average", n, sum/n)
	}
	for _, f := range in.Files {
		if strings.Contains(f.Name, "convert") {
			t.Errorf("%s is no file of the user's", f.Name)
		}
	}
	for name, role := range map[string]string{"projected.tif": "normals", "shapes.shp": "regions", "shapes.dbf": "regions", "shapes.shx": "regions", "shapes.prj": "regions"} {
		if !slices.Contains(in.Files, inputs.File{Role: role, Name: name}) {
			t.Errorf("%s was used but is not among %v", name, in.Files)
		}
	}
}

// daily writes NetCDF-4 of days of one cell pair's year by ncgen.
func daily(t *testing.T, dir string, days int) string {
	t.Helper()
	var b strings.Builder
	fmt.Fprintf(&b, "netcdf daily { dimensions: day = %d, lat = 2, lon = 2; variables: float lat(lat); lat:units = \"degrees_north\"; float lon(lon); lon:units = \"degrees_east\"; float tavg(day, lat, lon); tavg:units = \"degC\"; data: lat = 41, 40; lon = -91, -90; tavg = ", days)
	for i := range 4 * days {
		fmt.Fprintf(&b, "%.3f, ", 10-14*math.Cos(2*math.Pi*float64(i/4)/float64(days)))
	}
	cdl := filepath.Join(dir, "daily.cdl")
	if err := os.WriteFile(cdl, []byte(strings.TrimSuffix(b.String(), ", ")+"; }"), 0o644); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(dir, fmt.Sprintf("daily-%d.nc", days))
	oracle.Run(t, nil, "ncgen", "-k", "nc4", "-o", path, cdl)
	return path
}

// The same input gives the same notes: neither they nor errors name a copy
// that is gone when they are read.
func TestCopiesAreNeverNamed(t *testing.T) {
	oracle.Need(t, "nccopy", "ncgen")
	dir := t.TempDir()
	path := daily(t, dir, 366)
	in, _ := opened(t, dir, worldRecipe(path, "tavg", "air"))
	notes := strings.Join(in.Notes, "\n")
	if !strings.Contains(notes, path+": 366 layers") || strings.Contains(notes, "weekband-convert") {
		t.Errorf("notes:\n%s", notes)
	}
	path = daily(t, dir, 300)
	r, err := recipe.Decode([]byte(worldRecipe(path, "tavg", "air")), "recipe.yaml")
	if err != nil {
		t.Fatal(err)
	}
	_, err = inputs.Open(t.Context(), r, dir, inputs.MostCells)
	if err == nil || !strings.Contains(err.Error(), path+": 300 layers") || !strings.Contains(err.Error(), "was converted NetCDF-4") || strings.Contains(err.Error(), "weekband-convert") {
		t.Errorf("got %v", err)
	}
}

// Twelve GRIB messages in kelvins are the demo's months, told in one note.
func TestTwelveGRIBFiles(t *testing.T) {
	unraced(t)
	oracle.Need(t, "gdal_translate")
	dir, text := unpacked(t)
	full := filepath.Join(dir, "full.tif")
	oracle.Run(t, nil, "gdal_translate", "-q", "-unscale", "-ot", "Float32", "-projwin", "-49.5", "38.5", "-46.5", "36.5", filepath.Join(dir, "normals.tif"), full)
	want, _ := opened(t, dir, strings.Replace(text, "files: [normals.tif]", "files: [full.tif]", 1))
	for m := range 12 {
		oracle.Run(t, nil, "gdal_translate", "-q", "-of", "GRIB", "-b", strconv.Itoa(m+1), "-co", "INPUT_UNIT=C", "-co", "DATA_ENCODING=COMPLEX_PACKING", "-co", "NBITS=16", "-co", "PDS_PDTN=0",
			"-co", "PDS_TEMPLATE_NUMBERS=0 0 0 255 0 0 0 0 1 0 0 0 0 1 0 0 0 0 0 255 255 255 255 255 255", full, filepath.Join(dir, fmt.Sprintf("tavg-%02d.grb", m+1)))
	}
	got, _ := opened(t, dir, strings.NewReplacer("files: [normals.tif]", "files: [tavg-*.grb]", "unit: C", "unit: auto").Replace(text))
	if notes := strings.Join(got.Notes, "\n"); strings.Count(notes, "12 files, from tavg-01.grb to tavg-12.grb, were converted to GeoTIFF") != 1 || !strings.Contains(got.Unit, "kelvins") {
		t.Errorf("unit %s, notes:\n%s", got.Unit, notes)
	}
	a, b := monthsOf(t, want.Normals), monthsOf(t, got.Normals)
	compared := 0
	for m := range 12 {
		for i, ok := range a.Has {
			if ok && b.Has[i] && math.Abs(float64(a.Vals[m][i]-b.Vals[m][i])) > 0.01 {
				t.Fatalf("month %d, cell %d: %v, want %v", m+1, i, b.Vals[m][i], a.Vals[m][i])
			}
			if ok && b.Has[i] {
				compared++
			}
		}
	}
	if compared < 5000 {
		t.Errorf("%d values were compared", compared)
	}
}
