//go:build unix

package sidebyside

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"weekband/grid"
	"weekband/grid/source"
	"weekband/grid/weeks"
	"weekband/regions"
	"weekband/regions/bands"
	"weekband/regions/polygons"
	"weekband/regions/zonal"
)

// weekEdges are the first moments of the weeks of a year.
func weekEdges() []float64 {
	var edges []float64
	for day := 1.0; day <= 358; day += 7 {
		edges = append(edges, day)
	}
	return edges
}

// banding compares cutting a file of days into polygons of weeks, written as
// GeoJSON. weekband smooths and thins its lines besides.
func banding(t *testing.T, e *expanse, s size, runs int) row {
	in, out := filepath.Join(e.dir, "ours.tif"), filepath.Join(e.dir, "bands.geojson")
	var set bands.Set
	ours := best(t, runs, func() (err error) {
		set, err = cutFile(in, out)
		return err
	})
	other := filepath.Join(e.dir, "contours.geojson")
	args := []string{"-q", "-p", "-amin", "from", "-amax", "to", "-f", "GeoJSON"}
	args = append(args, "-fl")
	for _, v := range weekEdges() {
		args = append(args, fmt.Sprint(v))
	}
	theirs := tool(t, runs, func() { os.Remove(other) }, "gdal_contour", append(args, in, other)...)
	apart := compareBands(t, set, other, e.normals.grid)
	if limit := map[bool]float64{true: 0.02, false: 0.15}[s.rows > 300]; apart > limit {
		t.Errorf("bands differ by %.3g of the area in all, want at most %g", apart, limit)
	}
	return row{"bands of weeks", fmt.Sprintf("%v, to GeoJSON", s), ours, theirs, "gdal_contour " + gdalVersion(t),
		fmt.Sprintf("areas to %.2g %% of all; %s", 100*apart, sizes(t, out, other))}
}

// cutFile reads days, cuts them into bands, and writes these.
func cutFile(in, out string) (bands.Set, error) {
	l, err := source.Open(in, source.Options{})
	if err != nil {
		return bands.Set{}, err
	}
	defer l.Close()
	days := grid.NewRaster[float32](l.Grid())
	for row := range l.Grid().Rows() {
		vals, has := days.Row(row)
		if err := l.Read(0, row, 1, vals, has); err != nil {
			return bands.Set{}, err
		}
	}
	set, err := bands.Trace(bands.Field{Day: days}, weekEdges(), bands.Options{})
	if err != nil {
		return set, err
	}
	f, err := os.Create(out)
	if err != nil {
		return set, err
	}
	defer f.Close()
	enc := polygons.NewEncoder(f)
	for _, b := range set.Bands {
		if err := enc.Write(polygons.Feature{ID: fmt.Sprint(b.Index), Shape: b.Shape}); err != nil {
			return set, err
		}
	}
	return set, enc.Close()
}

// compareBands returns by how much the areas of bands differ in all, in
// degrees, as a share of the whole.
func compareBands(t *testing.T, set bands.Set, path string, g grid.Grid) float64 {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	theirs, err := polygons.Decode(f, path, polygons.Options{ID: "to", Name: "to"})
	if err != nil {
		t.Fatal(err)
	}
	area := map[string]float64{}
	for _, r := range theirs.Regions {
		area[r.ID] += planarArea(r.Shape)
	}
	edges := weekEdges()
	apart, all := 0.0, 0.0
	for _, b := range set.Bands {
		if b.Index >= len(edges) {
			t.Fatalf("band %d lies past the last week", b.Index)
		}
		a, to := planarArea(b.Shape), fmt.Sprint(edges[b.Index])
		apart += math.Abs(a - area[to])
		all += a
		delete(area, to)
	}
	for _, a := range area {
		apart += a
	}
	return apart / all
}

func planarArea(shape orb.MultiPolygon) float64 { return math.Abs(planar.Area(shape)) }

// summing compares the crossing days of every region: weekband by the exact
// share of every cell that a region covers, the others by the middles of
// cells.
func summing(t *testing.T, e *expanse, s size, runs int, f *weeks.Field) row {
	var set regions.Set
	var list []zonal.Summary
	ours := best(t, runs, func() error {
		in, err := os.Open(e.regions)
		if err != nil {
			return err
		}
		defer in.Close()
		if set, err = polygons.Decode(in, e.regions, polygons.Options{ID: "code", Name: "name"}); err != nil {
			return err
		}
		list = list[:0]
		for _, c := range zonal.CoverAll(set, f.Grid()) {
			list = append(list, zonal.Summarize(c, f.Day, f.Reason))
		}
		return nil
	})
	box := f.Grid().Box()
	args := []string{e.dir, e.regions, fmt.Sprint(runs), fmt.Sprint(s.rows), fmt.Sprint(s.cols)}
	for _, v := range []float64{box.West, box.South, box.East, box.North} {
		args = append(args, fmt.Sprint(v))
	}
	theirs := script(t, python(t), "regions.py", args...)
	agree := compareRegions(t, list, readFloats(t, filepath.Join(e.dir, "regions.f32")))
	return row{"tables of regions", fmt.Sprintf("%d polygons on %v", s.regions, s), ours, theirs.cost, theirs.Tools, agree}
}

// compareRegions holds areas together to a tenth and medians to 1 day, for
// nine of ten regions: by the middles of cells neither can be exact.
func compareRegions(t *testing.T, list []zonal.Summary, theirs []float32) string {
	t.Helper()
	if len(theirs) != 5*len(list) {
		t.Fatalf("%d numbers for %d regions", len(theirs), len(list))
	}
	far, areas, medians, dated := 0, 0.0, 0.0, 0
	for i, s := range list {
		r := theirs[5*i : 5*i+5]
		apart := math.Abs(float64(r[0])/s.AreaKm2 - 1)
		areas += apart
		gap := 0.0
		if s.HasDay && r[1] > 0 {
			gap = math.Abs(s.Median - float64(r[3]))
			medians += gap
			dated++
		}
		if apart > 0.1 || gap > 1 {
			far++
		}
	}
	if dated < len(list)/2 || far*10 > len(list) {
		t.Errorf("%d regions have a day; of %d regions %d differ by more than a tenth of the area or 1 day", dated, len(list), far)
	}
	return fmt.Sprintf("areas to %.1f %%, medians to %.2f days on average", 100*areas/float64(len(list)), medians/float64(max(dated, 1)))
}
