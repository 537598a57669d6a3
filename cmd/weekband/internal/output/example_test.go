package output_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"weekband/cmd/weekband/internal/output"
	"weekband/cmd/weekband/internal/skerry"
	"weekband/regions"
)

// The table of regions of an edition: days of the year, 1.0 = 1 January 0:00, and
// the dates between which the weeks of each region lie.
func ExampleWriteTables() {
	path, remove := skerry.Recipe()
	defer remove()
	s, err := skerry.Survey(context.Background(), path)
	if err != nil {
		fmt.Println(err)
		return
	}
	defer s.Inputs.Close()
	dir := filepath.Dir(path)
	root, err := os.OpenRoot(dir)
	if err != nil {
		fmt.Println(err)
		return
	}
	defer root.Close()
	cells, err := output.WriteTables(root, s.Recipe.Language, s.Findings.Rows, s.Findings.Fields, false)
	if err != nil {
		fmt.Println(err)
		return
	}
	table, err := os.ReadFile(filepath.Join(dir, output.TableCSV))
	if err != nil {
		fmt.Println(err)
		return
	}
	for line := range strings.SplitSeq(strings.TrimSpace(string(table)), "\r\n") {
		fmt.Println(strings.Join(strings.Split(line, ",")[:8], ","))
	}
	fmt.Println("table of cells:", cells)
	// Output:
	// window,region_id,region,area_km2,median_day,p10_day,p90_day,median_week
	// spring,W,West Skerry,1168.3,125,123.4,126.7,18
	// spring,E,East Skerry,1168.3,127.5,125.9,129.2,19
	// table of cells: true
}

// Regions of one name are told apart by their ids.
func ExampleSlugs() {
	names := output.Slugs(regions.Set{Regions: []regions.Region{{ID: "W-1", Name: "Vale"}, {ID: "W-2", Name: "Vale"}, {ID: "W-3", Name: "Sôlenne"}}})
	fmt.Println(names["W-1"], names["W-2"], names["W-3"])
	// Output: vale-w-1 vale-w-2 solenne
}
