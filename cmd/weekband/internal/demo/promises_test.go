package demo

import (
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"weekband/grid"
	"weekband/grid/calibration"
	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/oracle"
	"weekband/grid/soil"
	"weekband/grid/units"
)

func TestFilesAreSmall(t *testing.T) {
	sum := 0
	for name, most := range map[string]int{
		"normals.tif": 400_000, "elevation.tif": 60_000, "regions.geojson": 200_000, "places.csv": 10_000, Recipe: 2_000,
		"soil-stations.csv": 2_000, "soil-daily.csv.gz": 256_000, "offsets.csv": 5_000, "thermometers.csv": 50_000,
	} {
		n := len(read(t, name))
		if n > most {
			t.Errorf("%s has %d bytes, want at most %d", name, n, most)
		}
		sum += n
	}
	if sum > 600_000 {
		t.Errorf("together %d bytes, want at most 600,000", sum)
	}
}

// Every cell with a climate has its middle in exactly one region, every other
// cell in none, and every region has many.
func TestRegionsHoldEachLandCellOnce(t *testing.T) {
	w := load(t)
	g := w.where.Grid()
	if g.Rows() != 120 || g.Cols() != 160 {
		t.Fatalf("the grid is %v", g)
	}
	cells := make([]int, len(w.regions))
	for i, land := range w.land {
		p := g.Center(grid.Cell{Row: i / g.Cols(), Col: i % g.Cols()})
		in := 0
		for k, r := range w.regions {
			if r.contains(p) {
				in++
				cells[k]++
			}
		}
		if want := map[bool]int{true: 1, false: 0}[land]; in != want {
			t.Errorf("cell %d at %v lies in %d regions, want %d", i, p, in, want)
		}
	}
	if n := len(w.regions); n < 12 || n > 20 {
		t.Errorf("%d regions, want 12 to 20", n)
	}
	for k, n := range cells {
		if n < 40 {
			t.Errorf("%s has only %d cells", w.regions[k].name, n)
		}
	}
}

// Shared borders are identical point by point: an edge occurs once, or twice
// in opposite directions; RFC 7946, 3.1.6: outer rings anticlockwise, holes
// clockwise, closed.
func TestRegionsShareTheirBorders(t *testing.T) {
	w := load(t)
	ways := map[[4]float64]int{}
	total, byCells := 0.0, 0.0
	for _, r := range w.regions {
		for _, polygon := range r.polygons {
			for k, ring := range polygon {
				a := area(ring)
				if len(ring) < 4 || ring[0] != ring[len(ring)-1] || (k == 0) != (a > 0) {
					t.Errorf("%s: ring of %d points, area %g, is not as the standard asks", r.name, len(ring), a)
				}
				total += a
				for i := 1; i < len(ring); i++ {
					ways[[4]float64{ring[i-1][0], ring[i-1][1], ring[i][0], ring[i][1]}]++
				}
			}
		}
	}
	shared := 0
	for e, n := range ways {
		if n > 1 {
			t.Errorf("the edge %v occurs %d times in one direction", e, n)
		}
		shared += ways[[4]float64{e[2], e[3], e[0], e[1]}]
	}
	if shared < 600 {
		t.Errorf("only %d edges have a counterpart", shared)
	}
	for _, land := range w.land {
		if land {
			byCells += 0.08 * 0.08
		}
	}
	if math.Abs(total-byCells) > 0.005*byCells {
		t.Errorf("regions cover %.3f square degrees, land cells %.3f", total, byCells)
	}
}

// GEOS, through ogrinfo, finds every region valid and their union as large
// as their sum.
func TestRegionsAreValidForGEOS(t *testing.T) {
	oracle.Need(t, "ogrinfo")
	file := filepath.Join(t.TempDir(), "regions.geojson")
	if err := os.WriteFile(file, read(t, "regions.geojson"), 0o644); err != nil {
		t.Fatal(err)
	}
	const question = `select min(ST_IsValid(geometry)) as valid, ST_Area(ST_Union(geometry)) as whole, sum(ST_Area(geometry)) as parts from regions`
	out := oracle.Run(t, nil, "ogrinfo", "-q", file, "-dialect", "sqlite", "-sql", question)
	answer := map[string]float64{}
	for line := range strings.Lines(string(out)) {
		if key, value, ok := strings.Cut(line, " = "); ok {
			answer[strings.Fields(key)[0]], _ = strconv.ParseFloat(strings.TrimSpace(value), 64)
		}
	}
	if answer["valid"] != 1 || answer["whole"] == 0 || math.Abs(answer["whole"]-answer["parts"]) > 1e-7 {
		t.Errorf("GEOS says %v", answer)
	}
}

func TestPlacesLieWhereTheySay(t *testing.T) {
	w := load(t)
	if n := len(w.places); n < 60 || n > 95 {
		t.Errorf("%d places, want 60 to 95", n)
	}
	names, codes, ranks, inRegion := map[string]bool{}, map[string]bool{}, map[string]int{}, map[string]int{}
	byName := map[string]region{}
	for _, r := range w.regions {
		byName[r.name] = r
	}
	for _, p := range w.places {
		c, ok := w.where.Grid().Locate(p.at)
		if !ok || !w.land[c.Row*160+c.Col] {
			t.Errorf("%s at %v has no climate", p.name, p.at)
		}
		r := byName[p.region]
		if !r.contains(p.at) || !strings.HasPrefix(p.code, r.code+"-") {
			t.Errorf("%s (%s) does not lie in %q", p.name, p.code, p.region)
		}
		if names[p.name] || codes[p.code] {
			t.Errorf("%s or its code %s occurs twice", p.name, p.code)
		}
		names[p.name], codes[p.code] = true, true
		ranks[p.rank]++
		inRegion[p.region]++
	}
	if len(ranks) != 3 || ranks["1"] > ranks["2"] || ranks["2"] > ranks["3"] {
		t.Errorf("places by rank: %v; want few chief towns and many villages", ranks)
	}
	for name := range byName {
		if inRegion[name] < 2 {
			t.Errorf("%s has %d places", name, inRegion[name])
		}
	}
}

// What the territory is for: crossings of 55 °F over many weeks, some land
// always above, some never there; 70 °F crossed in most of it.
func TestCrossingsAreWorthAMap(t *testing.T) {
	w := load(t)
	w.offsets = calibrated(t)
	spring := w.crossings(crossing.Trigger{Level: units.F.Celsius(55), Direction: crossing.Warming})
	always, never := spring.share(crossing.Always), spring.share(crossing.Never)
	t.Logf("55 °F: always %.4f, never %.4f", always, never)
	if always < 0.03 || always > 0.08 || never < 0.02 || never > 0.06 {
		t.Errorf("55 °F: always %.3f, never %.3f; want 0.03–0.08 and 0.02–0.06", always, never)
	}
	weeks := map[int]bool{}
	for _, x := range spring {
		if x.Reason.HasDay() {
			weeks[int(x.Day.Week())] = true
		}
	}
	if len(weeks) < 19 {
		t.Errorf("55 °F is crossed in %d weeks, want 19", len(weeks))
	}
	late := w.crossings(crossing.Trigger{Level: units.F.Celsius(70), Direction: crossing.Cooling})
	if dated := late.share(crossing.Dated) + late.share(crossing.Flat); dated < 0.85 {
		t.Errorf("70 °F is crossed on %.3f of the land, want 0.85", dated)
	}
}

type crossings []crossing.Crossing

func (w *territory) crossings(trigger crossing.Trigger) (all crossings) {
	cols := w.where.Grid().Cols()
	for i, land := range w.land {
		if land {
			year := w.soil(grid.Cell{Row: i / cols, Col: i % cols})
			all = append(all, crossing.Find(&year, trigger))
		}
	}
	return all
}

// soil returns the typical year of soil at 10 cm in a cell, °C, with the
// offsets of the territory.
func (w *territory) soil(c grid.Cell) (year curve.Year) {
	g := w.where.Grid()
	var means [12]units.Celsius
	for m := range means {
		means[m] = units.Celsius(w.months[m][c.Row*g.Cols()+c.Col])
	}
	air := curve.FromMonths(&means)
	air.Sample(&year)
	model := soil.Default
	model.Offset, _ = w.offsets.At(g.Center(c), calibration.ColdestOf(&year))
	model.Apply(&year, &year)
	return year
}

func (all crossings) share(reason crossing.Reason) float64 {
	n := 0
	for _, c := range all {
		if c.Reason == reason {
			n++
		}
	}
	return float64(n) / float64(len(all))
}
