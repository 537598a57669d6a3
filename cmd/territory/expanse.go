package main

import (
	_ "embed"
	"encoding/csv"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"weekband/grid"
)

const expanseCredit = "Invented ground to try large data on, not a real place"

//go:embed expanse.yaml
var expanseRecipe string

// expanse is how large and how wet an invented ground is to be.
type expanse struct {
	rows, cols int
	box        grid.Box
	water      float64 // share of the cells
	regions    []int   // how many in each file
	places     int
	seed       uint64
	out        string
}

// expanseOf reads the arguments after the word expanse.
func expanseOf(args []string, stderr io.Writer) (expanse, error) {
	flags := flag.NewFlagSet("territory expanse", flag.ContinueOnError)
	flags.SetOutput(stderr)
	var e expanse
	flags.IntVar(&e.rows, "rows", 596, "rows of cells")
	flags.IntVar(&e.cols, "cols", 1385, "columns of cells")
	box := flags.String("box", "-125,24,-66.5,49.9", "west, south, east, north in degrees; by default where the calibration us has stations")
	flags.Float64Var(&e.water, "water", 0.45, "share of the cells that are water")
	regions := flags.String("regions", "50,3100", "how many regions, a file of them for each number")
	flags.IntVar(&e.places, "places", 3000, "how many places, at most")
	flags.Uint64Var(&e.seed, "seed", 1, "another number makes other ground")
	flags.StringVar(&e.out, "out", "", "folder to write into; required")
	if err := flags.Parse(args); err != nil {
		return e, err
	}
	var edges [4]float64
	if n, err := fmt.Sscanf(*box, "%g,%g,%g,%g", &edges[0], &edges[1], &edges[2], &edges[3]); n != 4 {
		return e, fmt.Errorf("-box %q: %w; want west,south,east,north in degrees, such as -125,24,-66.5,49.9", *box, err)
	}
	e.box = grid.Box{West: edges[0], South: edges[1], East: edges[2], North: edges[3]}
	for _, word := range strings.Split(*regions, ",") {
		n, err := strconv.Atoi(strings.TrimSpace(word))
		if err != nil || n < 1 {
			return e, fmt.Errorf("-regions %q: %q is no number of regions; want numbers from 1 on, such as 50,3100", *regions, word)
		}
		e.regions = append(e.regions, n)
	}
	switch {
	case flags.NArg() > 0:
		return e, fmt.Errorf("%q is not understood; see -help", flags.Arg(0))
	case e.out == "":
		return e, errors.New("-out is missing; name the folder to write into")
	case e.water < 0 || e.water > 0.95:
		return e, fmt.Errorf("-water %g: want a share of 0 to 0.95", e.water)
	case e.places < 0:
		return e, fmt.Errorf("-places %d: want 0 or more", e.places)
	}
	return e, nil
}

// runExpanse writes an expanse and returns the exit code.
func runExpanse(args []string, stdout, stderr io.Writer) int {
	e, err := expanseOf(args, stderr)
	if errors.Is(err, flag.ErrHelp) {
		return 2
	}
	if err != nil {
		fmt.Fprintln(stderr, "territory expanse:", err)
		return 2
	}
	if err := e.write(stdout); err != nil {
		fmt.Fprintln(stderr, "territory expanse:", err)
		return 1
	}
	return 0
}

// write writes the normals, the regions, the places and the recipe.
func (e expanse) write(stdout io.Writer) error {
	g, err := grid.New(e.box, e.rows, e.cols)
	if err != nil {
		return err
	}
	c := newContinent(g, e.water, e.seed)
	if err := os.MkdirAll(e.out, 0o755); err != nil {
		return err
	}
	names := newCoinage(noise(e.seed))
	var all []string
	for _, n := range e.regions {
		name := fmt.Sprintf("regions-%d.geojson", n)
		if err := e.file(name, func(w io.Writer) error { return e.writeProvinces(w, n, c, g, names) }); err != nil {
			return err
		}
		entry := fmt.Sprintf("{file: %s, id: code, name: name}", name)
		if err := e.writeRecipe(fmt.Sprintf("recipe-%d.yaml", n), entry); err != nil {
			return err
		}
		all = append(all, entry)
	}
	if err := e.writeRecipe("recipe.yaml", all...); err != nil {
		return err
	}
	if err := e.file("places.csv", func(w io.Writer) error { return e.writePlaces(w, c, g, names) }); err != nil {
		return err
	}
	if err := writeNormals(e.out, c, g); err != nil {
		return err
	}
	fmt.Fprintf(stdout, "%s: %d x %d cells; go run ./cmd/weekband build %s\n", e.out, e.rows, e.cols, filepath.Join(e.out, "recipe.yaml"))
	return nil
}

func (e expanse) file(name string, write func(io.Writer) error) error {
	files, err := written([]part{{name, write}})
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(e.out, name), files[0].data, 0o644)
}

// writeRecipe writes a recipe with some files of regions.
func (e expanse) writeRecipe(name string, regions ...string) error {
	return e.file(name, func(w io.Writer) error {
		_, err := fmt.Fprintf(w, "%sregions: [%s]\n", expanseRecipe, strings.Join(regions, ", "))
		return err
	})
}

// writeProvinces writes n regions that fill the land.
func (e expanse) writeProvinces(w io.Writer, n int, c continent, g grid.Grid, names *coinage) error {
	land := c.countryside(g, n, e.water)
	if len(land.dry) < n {
		return fmt.Errorf("%d regions do not fit on %d x %d cells; ask for at most %d", n, e.rows, e.cols, len(land.dry))
	}
	labels := make([]properties, n)
	for k := range labels {
		labels[k] = properties{Code: fmt.Sprintf("%d-%0*d", n, len(strconv.Itoa(n)), k+1), Name: names.name(regionLast)}
	}
	return writeShapes(w, land.provinces(n, noise(e.seed)), labels)
}

// Of a thousand places so many are chief towns and market towns.
const chiefTowns, marketTowns = 4, 24

// writePlaces writes places about evenly spread over the land; on small
// ground not more than one for 20 cells.
func (e expanse) writePlaces(w io.Writer, c continent, g grid.Grid, names *coinage) error {
	lines := [][]string{{"name", "lat", "lon", "code", "rank"}}
	n := min(e.places, g.Cells()/20)
	land := c.countryside(g, max(n, 1), e.water)
	for k, i := range land.spread(n, noise(e.seed)+1) {
		p := center(land.height.g, i)
		rank := 3
		if k*1000 < chiefTowns*n {
			rank = 1
		} else if k*1000 < marketTowns*n {
			rank = 2
		}
		lines = append(lines, []string{names.name(placeLast), strconv.FormatFloat(p.Lat, 'f', 4, 64),
			strconv.FormatFloat(p.Lon, 'f', 4, 64), fmt.Sprintf("P%05d", k+1), strconv.Itoa(rank)})
	}
	return csv.NewWriter(w).WriteAll(lines)
}
