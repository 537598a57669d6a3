package main

import (
	"compress/gzip"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

const noMark = " is not a number; want one from -90 to 90 degrees; write a decimal point, or separate all columns by semicolons"

var brokenPlaces = map[string]broken{
	"cr.csv":             repaired("note: %: took CR for the ends of lines", "places               3"),
	"crlf.csv":           repaired("note: %: took CR LF for the ends of lines", "places               3"),
	"decimal-commas.csv": repaired(`note: %: took semicolons for the separators of columns; read decimal commas as points, 6 of them, the first in "40,21" on line 2`, "west -51.2, south 39.4, east -49.8, north 40.21"),
	"mark.csv":           repaired("note: %: left out the byte order mark at its beginning", "places               3"),
	"quoted-lines.csv":   repaired("places               3"),
	"semicolons.csv":     repaired("note: %: took semicolons for the separators of columns", "west -51.2, south 39.4, east -49.8, north 40.21"),
	"tabs.csv":           repaired("note: %: took tabs for the separators of columns", "west -51.2, south 39.4, east -49.8, north 40.21"),
	"utf16-big.csv":      repaired("note: %: read it as UTF-16, as its byte order mark says", "places               3"),
	"utf16-little.csv":   repaired("note: %: read it as UTF-16, as its byte order mark says", "places               3"),
	"header-only.csv":    repaired("look at this: the list is empty"),

	"column-twice.csv":    refused(`%:1: two columns are named "lat"; the first line is "name,lat,lon,lat", want at least the columns name, lat and lon`),
	"comma-in-commas.csv": refused(`%:3: Fennay: lat "39,4"` + noMark),
	"comma-in-tabs.csv":   refused(`%:3: Fennay: lat "39,4"` + noMark),
	"degrees-minutes.csv": refused(`%:2: Lowen Strand: lat "40°13'N" is not a number`, "write decimal degrees, north and east positive", `%:2: Lowen Strand: lon "50°26'W"`),
	"empty.csv":           refused("%: the file is empty; want a first line with at least the columns name, lat and lon"),
	"latin1.csv":          refused("%:4:11: the byte 0xfd is not UTF-8 (in Latin-1 it would be 'ý')", "save the file as UTF-8"),
	"many.csv":            refused(`%:2: Town 0: lat "x" is not a number`, `%:21: Town 19: lat "x"`, "and 381 more"),
	"no-column.csv":       refused(`%:1: no column "lat"; the first line is "name,latitude,lon,code", want at least the columns name, lat and lon`),
	"nul.csv":             refused("%:3:4: a NUL byte; want text"),
	"open-quote.csv":      refused(`%:3: extraneous or missing " in quoted-field (found on line 4); want quotes in pairs`),
	"ragged.csv":          refused(`%:2: Lowen Strand: lon "" is not a number`, "%:4: the place has no name", "%:5: extraneous or missing"),
	"ranks.csv":           refused(`%:2: Lowen Strand: rank "first" is not a number; want a whole one from 0`),
	"swapped.csv":         refused("%:2: Lowen Strand: lat -150.43 is outside -90 to 90 degrees", "are lat and lon swapped?"),
	"two-marks.csv":       refused(`%:3: Fennay: lat "39,4": "40.21" on line 2 is written the other way; want decimal commas or decimal points in the whole table`),
	"utf16-unmarked.csv":  refused("%:1:2: a NUL byte; want text: this is a file of another kind, or UTF-16 without its mark"),
}

func TestBrokenPlaces(t *testing.T) {
	for _, name := range cases(t, "tables/places", brokenPlaces) {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(corpus, "tables", "places", name)
			brokenPlaces[name].try(t, path, "inspect", path)
		})
	}
}

// brokenStations are tables of a build from stations, and of offsets; those
// that are read as they are end it at the logo.
var brokenStations = map[string]map[string]broken{
	"sites": {
		"feet.csv":        refused("%:2: elev_m 14500 is outside -500 to 9000 m"),
		"header-only.csv": refused("%: no station has values for all twelve months in "),
		"ids-twice.csv":   refused(`%:3: id "S01" is already on line 2; want it once`),
		"one-point.csv":   refused("%: 1 station with monthly means for all twelve months; at least 4 are needed", "11 stations joined with another at the same place"),
		"one.csv":         refused("%: 1 station with monthly means for all twelve months; at least 4 are needed"),
		"semicolons.csv":  refused("weekband: logo: ", `note: %: took semicolons for the separators of columns; read decimal commas as points, 24 of them, the first in "38,40" on line 2`),
		"swapped.csv":     refused("%:2: lat -151.60 is outside -90 to 90 degrees", "are lat and lon swapped?"),
	},
	"values": {
		"fahrenheit.csv":        refused("%:6: tavg_c 63.6 is outside -90 to 60 °C; is it °F, or a missing value? convert it to °C, or leave the field empty", "and 41 more"),
		"missing-as-number.csv": refused("%:2: tavg_c -9999 is outside -90 to 60 °C", "leave the field empty", "%:3: month 13 is outside 1 to 12"),
		"month-names.csv":       refused(`%:2: month "Jan" is not a number; want a whole one from 1 to 12; January is 1`),
		"month-twice.csv":       refused(`%:3: month 1 of "S01" is given twice; want it once`),
		"months-from-0.csv":     refused("%:2: month 0 is outside 1 to 12; January is 1"),
		"strangers.csv":         refused("no station has values for all twelve months in %"),
	},
	"offsets": {
		"cr.csv":         refused("note: %: took CR for the ends of lines", "%: offsets at 1 different places; want at least 5"),
		"fahrenheit.csv": refused("%:2: mean 61.6 is outside -40 to 40 K"),
		"no-column.csv":  refused(`%:1: no column "cos2"; the first line is`),
		"words.csv":      refused(`%:2: mean "warm" is not a number; want one from -40 to 40 K`),
	},
}

func TestBrokenStations(t *testing.T) {
	for kind, known := range brokenStations {
		for _, name := range cases(t, "tables/"+kind, known) {
			t.Run(kind+"/"+name, func(t *testing.T) {
				path, err := filepath.Abs(filepath.Join(corpus, "tables", kind, name))
				if err != nil {
					t.Fatal(err)
				}
				tables := map[string]string{"sites": "sites.csv", "values": "values.csv", "offsets": "none"}
				tables[kind] = path
				dir := t.TempDir()
				recipe := world(t, dir, "calibration: none", "calibration: "+tables["offsets"], "  unit: C\n", "",
					"files: [tavg-*.asc]", "sites: "+tables["sites"]+"\n  values: "+tables["values"],
					"credits:", nowhere+"grid: {cell: 40 km, box: [-52, 38, -48, 41]}\ncredits:")
				known[name].try(t, path, "build", recipe, "--out", filepath.Join(dir, "out"))
			})
		}
	}
}

var brokenSeries = map[string]broken{
	"crlf.csv":            refused("note: %: took CR LF for the ends of lines", "%: offsets at 0 different places; want at least 5"),
	"date-twice.csv":      refused(`%:14: 2020-01 of "S01" is already on line 2; want one row for a date`),
	"day-first.csv":       refused(`%:2: date "17.01"; want a day such as 2010-05-17 or a month such as 2010-05`),
	"days-and-months.csv": refused(`%:14: date "2021-01-01" in a file that began with months; want all days or all months`),
	"fahrenheit.csv":      refused("its series did not pass the check", "%: offsets at 0 different places"),
	"no-soil.csv":         refused(`%:1: no column of soil temperature; the first line is "id,date,air_c,soil_ten", want id,date,air_c and soil<N>_c`),
	"slashes.csv":         refused(`%:2: date "05/06/2020"; want a day such as 2010-05-17`),
	"two-digit-year.csv":  refused(`%:2: date "20-05-06"; want a day such as 2010-05-17`),
}

func TestBrokenSeries(t *testing.T) {
	for _, name := range cases(t, "tables/series", brokenSeries) {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(corpus, "tables", "series", name)
			brokenSeries[name].try(t, path, "calibrate", filepath.Join(corpus, "world", "sites.csv"), path, "--out", filepath.Join(t.TempDir(), "offsets.csv"))
		})
	}
}

// A table that unpacks to a thousand times its size, and a row without an end,
// are refused while little was read.
func TestHostileTables(t *testing.T) {
	unraced(t)
	dir := t.TempDir()
	row := "S01,2020-01,1.0,2.0\n"
	for name, c := range map[string]struct {
		rows int
		row  string
		want string
	}{
		"bomb.csv.gz": {1_000_000, row, "KB of gzip unpack to 16 MB, more than 200 times as much, as no table does; unpack it by hand"},
		"row.csv.gz":  {4_000_000, "9", "the next row has more than 1 MB; want shorter rows: is a quote left open?"},
		"row.csv":     {4_000_000, "9", "the next row has more than 1 MB"},
		"cut.csv.gz":  {-1, row, "unexpected EOF"},
	} {
		path := filepath.Join(dir, name)
		writeTable(t, path, c.row, c.rows)
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		refused(path, c.want).try(t, path, "calibrate", filepath.Join(corpus, "world", "sites.csv"), path, "--out", filepath.Join(dir, "offsets.csv"))
		runtime.ReadMemStats(&after)
		got := after.TotalAlloc - before.TotalAlloc
		t.Logf("%s: %d MB were allocated", name, got>>20)
		if got > 256<<20 {
			t.Errorf("%s: %d bytes were allocated", name, got)
		}
	}
}

// writeTable writes a series with so many rows, gzipped when its name says so;
// -1 rows is one, and a gzipped file that is cut short.
func writeTable(t *testing.T, path, row string, rows int) {
	t.Helper()
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var w io.Writer = f
	if strings.HasSuffix(path, ".gz") {
		zip, err := gzip.NewWriterLevel(f, gzip.BestCompression)
		if err != nil {
			t.Fatal(err)
		}
		if rows >= 0 {
			defer zip.Close()
		} else {
			defer zip.Flush()
		}
		w = zip
	}
	if _, err := fmt.Fprintln(w, "id,date,air_c,soil10_c"); err != nil {
		t.Fatal(err)
	}
	block := strings.Repeat(row, 1000)
	for range max(1, rows/1000) {
		if _, err := io.WriteString(w, block); err != nil {
			t.Fatal(err)
		}
	}
}
