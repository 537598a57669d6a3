package main

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/comparison"
	"weekband/grid/oracle"
)

// shiftsByTables works the shift of the first window out from the tables of
// cells of two editions, which hold days to a hundredth, and of regions: areas
// in km² by fate and by weeks later, quantiles of the days, and regions by how
// their week turned.
const shiftsByTables = `
import csv, gzip, json, sys
import numpy as np

def cells(folder, window):
    with gzip.open(folder + "/tables/cells.csv.gz", "rt", newline="") as f:
        return {(r["row"], r["col"]): r for r in csv.DictReader(f) if r["window"] == window}

def regions(folder, window):
    with open(folder + "/tables/regions.csv", newline="", encoding="utf-8") as f:
        return {r["region_id"]: r for r in csv.DictReader(f) if r["window"] == window}

def weeks_later(a, b):
    return (b - a + 26) % 52 - 26

older, newer, window = sys.argv[1:]
a, b = cells(older, window), cells(newer, window)
fate, by_weeks, days, km2 = {}, {}, [], []
for key in sorted(set(a) | set(b)):
    x, y = a.get(key), b.get(key)
    area = float((x or y)["area_km2"])
    if x and y and x["reason"] == y["reason"] == "dated":
        name = "day_in_both"
        p, q = float(x["crossing_day"]), float(y["crossing_day"])
        days.append((q - p + 182.5) % 365 - 182.5)
        km2.append(area)
        w = weeks_later(min(int((p - 1) // 7) + 1, 52), min(int((q - 1) // 7) + 1, 52))
        by_weeks[str(w)] = by_weeks.get(str(w), 0) + area
    elif not x: name = "only_newer"
    elif not y: name = "only_older"
    elif y["reason"] == "dated": name = "gained"
    elif x["reason"] == "dated": name = "lost"
    else: name = "no_day_in_either"
    fate[name] = fate.get(name, 0) + area
days, km2 = np.array(days), np.array(km2)
order = np.argsort(days, kind="stable")
share = np.cumsum(km2[order]) / km2.sum()
quantile = lambda q: float(days[order][min(np.searchsorted(share, q), len(days) - 1)])

turned = {}
ra, rb = regions(older, window), regions(newer, window)
def has_week(r):
    return r["median_day"] != "" and 1 - sum(float(r[k]) for k in ("never_share", "always_share", "nodata_share", "flat_share")) >= 0.495
for key in rb:
    was, now = has_week(ra[key]), has_week(rb[key])
    if was and now:
        w = weeks_later(int(ra[key]["median_week"]), int(rb[key]["median_week"]))
        name = "same" if w == 0 else "earlier" if w < 0 else "later"
    else:
        name = "gained" if now else "lost" if was else "none"
    turned[name] = turned.get(name, 0) + 1
print(json.dumps({"fate_km2": fate, "weeks_later_km2": by_weeks, "regions": turned, "days_later": {
    "least": float(days.min()), "p10": quantile(0.1), "median": quantile(0.5), "p90": quantile(0.9), "most": float(days.max())}}))
`

// The demo against its spring with shallower soil: numpy finds the same in the
// tables of both, and GDAL in the grid of the shift.
func TestCompareAgreesWithTheTables(t *testing.T) {
	demo := demoEdition(t)
	dir, text := unpacked(t)
	at, end := strings.Index(text, "  - id: winter-annuals"), strings.Index(text, "regions:")
	text = strings.Replace(text[:at]+text[end:], "depth: 4 in", "depth: 2 in", 1) + "size: 800\nmaps: none\n"
	recipe, shallow, out := filepath.Join(dir, "recipe.yaml"), filepath.Join(t.TempDir(), "shallow"), filepath.Join(t.TempDir(), "moved")
	if err := os.WriteFile(recipe, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	if code, _, log := weekband(t, "build", recipe, "--out", shallow); code != exitOK {
		t.Fatalf("exit code %d\n%s", code, log)
	}
	code, summary, log := weekband(t, "compare", demo, shallow, "--out", out)
	if code != exitOK || !strings.Contains(summary, "another recipe: soil.depth from ") || !strings.Contains(log, "window winter-annuals is only in the older edition") {
		t.Fatalf("exit code %d\n%s%s", code, summary, log)
	}
	var got comparison.Reply
	read, err := os.ReadFile(filepath.Join(out, "comparison.json"))
	if err == nil {
		err = json.Unmarshal(read, &got)
	}
	if err != nil || len(got.Windows) != 1 {
		t.Fatalf("%d windows, %v", len(got.Windows), err)
	}
	script := filepath.Join(t.TempDir(), "shifts.py")
	if err := os.WriteFile(script, []byte(shiftsByTables), 0o644); err != nil {
		t.Fatal(err)
	}
	var want comparison.WindowReply
	if err := json.Unmarshal(oracle.Numpy(t, nil, script, demo, shallow, "summer-annuals"), &want); err != nil {
		t.Fatal(err)
	}
	checkShift(t, got.Windows[0], want)
	checkShiftGrid(t, filepath.Join(out, "summer-annuals.tif"), want)
}

// checkShift compares areas to a part in ten thousand, or two cells whose day
// rounds into another week, and days to a hundredth either side.
func checkShift(t *testing.T, got, want comparison.WindowReply) {
	t.Helper()
	const cells = 2 * 70.0 // km²
	for name, pair := range map[string][2]map[string]float64{"fate": {got.FateKm2, want.FateKm2}, "weeks": {got.Weeks, want.Weeks}} {
		if len(pair[0]) != len(pair[1]) || len(pair[1]) < 2 {
			t.Errorf("%s: %v, numpy says %v", name, pair[0], pair[1])
		}
		for key, km2 := range pair[1] {
			if math.Abs(pair[0][key]-km2) > 1e-4*km2+cells {
				t.Errorf("%s %s: %g km², numpy says %g", name, key, pair[0][key], km2)
			}
		}
	}
	if len(got.Count) != len(want.Count) {
		t.Errorf("regions %v, numpy says %v", got.Count, want.Count)
	}
	for key, n := range want.Count {
		if got.Count[key] != n {
			t.Errorf("regions %s: %d, numpy says %d", key, got.Count[key], n)
		}
	}
	g, w := got.Days, want.Days
	for name, pair := range map[string][2]float64{"least": {g.Least, w.Least}, "p10": {g.P10, w.P10}, "median": {g.Median, w.Median}, "p90": {g.P90, w.P90}, "most": {g.Most, w.Most}} {
		if math.Abs(pair[0]-pair[1]) > 0.021 {
			t.Errorf("%s: %g days, numpy says %g", name, pair[0], pair[1])
		}
	}
}

// checkShiftGrid compares the grid's extremes as GDAL reads them.
func checkShiftGrid(t *testing.T, path string, want comparison.WindowReply) {
	t.Helper()
	var info struct {
		Bands []struct {
			Minimum, Maximum float64
			NoDataValue      float64
			Unit             string
		}
	}
	if err := json.Unmarshal(oracle.Run(t, nil, "gdalinfo", "-json", "-stats", "--config", "GDAL_PAM_ENABLED", "NO", path), &info); err != nil {
		t.Fatal(err)
	}
	b := info.Bands[0]
	if len(info.Bands) != 1 || math.Abs(b.Minimum-want.Days.Least) > 0.021 || math.Abs(b.Maximum-want.Days.Most) > 0.021 || b.NoDataValue != -9999 || b.Unit != "day" {
		t.Errorf("GDAL reads %+v, the tables say %+v", info.Bands, want.Days)
	}
}
