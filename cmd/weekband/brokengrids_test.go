package main

import (
	"os"
	"path/filepath"
	"runtime"
	"testing"
)

const noNumber = "is not a number; want one such as -12.5"

// sound is a grid that is read as it is: the build ends at the logo.
var sound = refused("weekband: logo: ")

// brokenGrids are grids and what a build says when one is March, or, if it
// holds all months or elevations, all there is.
var brokenGrids = map[string]broken{
	"all-missing.asc":    refused("% has no values where other months have some; want all twelve over the same ground: is it the right file?"),
	"billions.asc":       refused("%: 198 bytes of values cannot hold 1000000000 rows × 1000000000 columns; is the file cut short?"),
	"cellsize-comma.asc": refused(`%:5:10: cellsize is "0,5", which `+noNumber, "with a decimal point: save the file without the commas of a language"),
	"cellsize-nan.asc":   refused(`%:5:10: cellsize is "NaN", which ` + noNumber),
	"cellsize-zero.asc":  refused("%: cellsize is 0; want a positive number of degrees"),
	"decimal-comma.asc":  refused(`%:7:13: "3,3" ` + noNumber + ", with a decimal point"),
	"empty.asc":          refused("%: the file is empty; want an Esri ASCII grid, a GeoTIFF or NetCDF classic"),
	"gzipped.asc":        refused("%: the file is compressed with gzip: unpack it first"),
	"header-only.asc":    refused("%: 0 bytes of values cannot hold 6 rows × 8 columns; is the file cut short?"),
	"infinite.asc":       refused("%:9:13: 1e39 is too large; want a number, or the nodata value of the header"),
	"kelvin.asc":         refused("%: its mean is 278.5, those of the months before and after are 1.916 and 10.64; want all twelve in one unit"),
	"key-twice.asc":      refused("%:6:1: header key cellsize stands twice; want it once"),
	"mark.asc":           refused("%: the file begins with a byte order mark: save it as plain ASCII text"),
	"metres.asc":         refused("%: cells of 50000 by 50000 degrees from longitude 500000 on are not longitudes and latitudes; are they metres of a projection? want degrees, by gdalwarp -t_srs EPSG:4326"),
	"ncols-large.asc":    refused("%: 198 bytes of values cannot hold 6 rows × 80 columns; is the file cut short?"),
	"ncols-negative.asc": refused("%: ncols is -8; want a whole number of at least 1"),
	"ncols-small.asc":    refused("%:12:9: a value after the last of 6 rows × 7 columns; do ncols and nrows fit the file?"),
	"ncols-zero.asc":     refused("%: ncols is 0; want a whole number of at least 1"),
	"no-corner.asc":      refused("%: the header has neither yllcorner nor yllcenter; want a line with one"),
	"one-value.asc":      refused("note: % holds the same value, 5, everywhere"),
	"other-grid.asc":     refused("%: its grid is not that of ", "west -52.25, south 38", "bring all months to one grid first"),
	"rows-long.asc":      refused("%:13:1: a value after the last of 6 rows × 8 columns; do ncols and nrows fit the file?"),
	"rows-short.asc":     refused("%:12:1: the file ends after 40 values, in row 5; 6 rows × 8 columns need 48: is it cut short?"),
	"swapped.asc":        refused("%: grid: latitudes -152 to -149 must rise and lie in -90 to 90"),
	"tenths.asc":         refused("%: its mean is 54.11, those of the months before and after are 1.916 and 10.64; want all twelve in one unit"),
	"thousands.asc":      refused(`%:9:13: "1'234" ` + noNumber),
	"unknown-key.asc":    refused(`%:5:1: header key "cellwidth" is not known; want ncols, nrows, xllcorner`),
	"upside-down.asc":    sound,
	"utf16.asc":          refused("%: the file begins with a byte order mark: save it as plain ASCII text"),
	"word.asc":           refused(`%:9:13: "cold" ` + noNumber),

	"big-endian.tif":    sound,
	"sixteen.tif":       sound,
	"sound.tif":         sound,
	"bomb.tif":          refused("%: 1 layers; want 12 months or 365 or 366 days in one file, or 12 files of one layer each"),
	"circle.tif":        refused("%: the chain of directories comes back to byte"),
	"colours.tif":       refused("%: 3 layers; want 12 months"),
	"compression.tif":   refused("compression 34712 (unknown) is not supported; rewrite the file with gdal_translate -co COMPRESS=DEFLATE"),
	"cut.tif":           refused("%: a directory lies at bytes 2588 to 2590, but the file has 900 bytes; is it cut short?"),
	"huge.tif":          refused("%: grid: latitudes -29959 to 41 must rise and lie in -90 to 90"),
	"magic.tif":         refused(`%: the first bytes "II-`, "want an Esri ASCII grid, a GeoTIFF or NetCDF classic"),
	"no-place.tif":      refused("%: no tags say where the cells lie; add them with gdal_translate -a_ullr"),
	"palette.tif":       refused("%: 1 layers; want 12 months"),
	"same-tiles.tif":    refused("%: 1 layers of 32768 rows × 32768 columns in a file of 17144 bytes, more than any raster packs to; is it damaged, or a placeholder?"),
	"strips-beyond.tif": refused("block 0 (rows 0 to 5, band 1) at byte 4000000000", "the file has 2786 bytes; is it cut short?"),
	"three-months.tif":  refused("%: 3 layers; want 12 months"),

	"lon-0-360.nc":   sound,
	"sound.nc":       sound,
	"cut.nc":         refused(`%: variable "tavg", record 0: its values from byte`, "beyond the end of the file (1000 bytes); is it cut short?"),
	"huge-lat.nc":    refused(`%: coordinate variable "lat" has 400000000 values; the file has only`),
	"huge.nc":        refused(`variable "tavg" is larger than any file`),
	"no-records.nc":  refused("%: variable tavg(month=0, lat=6, lon=8) in degC has no layers: the file was never filled, or is cut short"),
	"no-variable.nc": refused("%: no variable whose last two dimensions are latitude and longitude; the file has lat(lat=6)"),
	"swapped.nc":     refused("%: no variable whose last two dimensions are latitude and longitude; the file has"),
	"version-9.nc":   refused("%: not a NetCDF classic file: it begins with 43 44 46 09; want CDF and 1, 2 or 5"),
	"wrong-unit.nc":  refused(`%: the file gives the unit "mm", which is not a temperature's; if it holds temperatures all the same, write unit: C`),
}

func TestBrokenGrids(t *testing.T) {
	for _, name := range cases(t, "grids", brokenGrids) {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			files, march := name, name
			if filepath.Ext(name) == ".asc" {
				files, march = "tavg-*.asc", "tavg-03.asc"
			}
			recipe := world(t, dir, "tavg-*.asc", files, "  unit: C\n", "", "credits:", nowhere+"credits:")
			grid, err := os.ReadFile(filepath.Join(corpus, "grids", name))
			if err != nil {
				t.Fatal(err)
			}
			path := filepath.Join(dir, march)
			if err := os.WriteFile(path, grid, 0o644); err != nil {
				t.Fatal(err)
			}
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			brokenGrids[name].try(t, path, "build", recipe, "--out", filepath.Join(dir, "out"))
			runtime.ReadMemStats(&after)
			if got := after.TotalAlloc - before.TotalAlloc; got > 64<<20 {
				t.Errorf("%d bytes were allocated", got)
			}
		})
	}
}

// As elevations a grid is held in memory: one that promises more than it holds
// is refused before.
func TestHostileTerrain(t *testing.T) {
	for name, want := range map[string]string{
		"same-tiles.tif": "more than any raster packs to", "huge.tif": "latitudes -29959 to 41", "billions.asc": "cannot hold", "strips-beyond.tif": "12 layers; want one",
	} {
		dir := t.TempDir()
		recipe := world(t, dir, "credits:", "terrain: "+name+"\ncredits:")
		grid, err := os.ReadFile(filepath.Join(corpus, "grids", name))
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, name), grid, 0o644); err != nil {
			t.Fatal(err)
		}
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		refused("terrain: ", name, want).try(t, "", "build", recipe, "--out", filepath.Join(dir, "out"))
		runtime.ReadMemStats(&after)
		if got := after.TotalAlloc - before.TotalAlloc; got > 64<<20 {
			t.Errorf("%s: %d bytes were allocated", name, got)
		}
	}
}
