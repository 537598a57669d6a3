package main

import (
	"bytes"
	_ "embed"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"weekband/grid"
	"weekband/grid/source/geotiff"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run writes the territory, or an expanse, and returns the exit code: 2 for
// usage, 1 when a file cannot be written.
func run(args []string, stdout, stderr io.Writer) int {
	if len(args) > 0 && args[0] == "expanse" {
		return runExpanse(args[1:], stdout, stderr)
	}
	flags := flag.NewFlagSet("territory", flag.ContinueOnError)
	flags.SetOutput(stderr)
	out := flags.String("out", filepath.Join("cmd", "weekband", "internal", "demo", "territory"), "folder to write into")
	if err := flags.Parse(args); err != nil {
		return 2
	}
	if flags.NArg() > 0 {
		fmt.Fprintf(stderr, "territory: %q is not understood; want nothing, -out FOLDER, or expanse with its own options\n", flags.Arg(0))
		return 2
	}
	if err := writeAll(*out, stdout); err != nil {
		fmt.Fprintln(stderr, "territory:", err)
		return 1
	}
	return 0
}

func writeAll(dir string, stdout io.Writer) error {
	files, err := invent(form())
	if err != nil {
		return err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	for _, f := range files {
		if err := os.WriteFile(filepath.Join(dir, f.name), f.data, 0o644); err != nil {
			return err
		}
		fmt.Fprintf(stdout, "%-18s %7d bytes\n", f.name, len(f.data))
	}
	return nil
}

//go:embed recipe.yaml
var recipe []byte

// file is one file of the territory.
type file struct {
	name string
	data []byte
}

// part is a file before it is written.
type part struct {
	name  string
	write func(io.Writer) error
}

// invent makes the whole territory on a land and returns its files.
func invent(l *land) ([]file, error) {
	var seats []plan
	for _, r := range theRegions {
		seats = append(seats, r.seat)
	}
	shapes := shapes(l, settle(l, seats), len(seats))
	height := elevation(l, shapes)
	climate := climateOf(l)
	places := settlePlaces(l, func(p grid.LonLat) int {
		if !dry(height, p) {
			return sea
		}
		return whose(shapes, p)
	})
	files, err := written([]part{
		{"elevation.tif", func(w io.Writer) error {
			return writeLayers(w, []*grid.Raster[float32]{height}, geotiff.WriteOptions{
				Names: []string{"elevation"}, Unit: "m", Description: credit})
		}},
		{"normals.tif", func(w io.Writer) error {
			return writeLayers(w, normals(climate, height), geotiff.WriteOptions{
				Scale: 0.01, Names: monthNames(), Unit: "degC", Description: credit})
		}},
		{"places.csv", func(w io.Writer) error { return writePlaces(w, places) }},
		{"recipe.yaml", func(w io.Writer) error { _, err := w.Write(recipe); return err }},
		{"regions.geojson", func(w io.Writer) error { return writeRegions(w, shapes) }},
	})
	if err != nil {
		return nil, err
	}
	measured, err := thermometry(l, climate, height, places)
	return append(files, measured...), err
}

// thermometry returns the files of everything measured in soil, and the table
// of offsets learned from it.
func thermometry(l *land, c climate, height *grid.Raster[float32], places []place) ([]file, error) {
	w := newWeather()
	stations := network(l, c, w, func(p grid.LonLat) bool { return dry(height, p) })
	files, err := written([]part{
		{sitesName, func(out io.Writer) error { return writeStations(out, stations) }},
		{valuesName, func(out io.Writer) error { return writeDays(out, stations, w.dates) }},
		{"thermometers.csv", func(out io.Writer) error { return writeReadings(out, l, c, w, places) }},
	})
	if err != nil {
		return nil, err
	}
	offsets, err := written([]part{
		{"offsets.csv", func(out io.Writer) error { return writeOffsets(out, files[0].data, files[1].data) }},
	})
	return append(files, offsets...), err
}

func written(parts []part) ([]file, error) {
	var files []file
	for _, p := range parts {
		var b bytes.Buffer
		if err := p.write(&b); err != nil {
			return nil, fmt.Errorf("%s: %w", p.name, err)
		}
		files = append(files, file{p.name, b.Bytes()})
	}
	return files, nil
}

// credit goes into every raster, in ASCII.
const credit = "Territory of Merrow: invented for demonstration, not a real place"

// dry tells whether p lies in a cell that has a height.
func dry(height *grid.Raster[float32], p grid.LonLat) bool {
	c, ok := height.Grid().Locate(p)
	if ok {
		_, ok = height.At(c)
	}
	return ok
}
