package main

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"
)

// islet writes a recipe and what it names: an island of a few cells with two
// regions and a short season, which builds in a moment.
func islet(t *testing.T) (recipe string) {
	t.Helper()
	dir := t.TempDir()
	write := func(name, text string) {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for month := range 12 {
		var rows strings.Builder
		for row := range 2 {
			for col := range 12 {
				fmt.Fprintf(&rows, "%.2f ", 10+0.5*float64(row)-0.1*float64(col)-14*math.Cos(2*math.Pi*(float64(month)-0.3)/12))
			}
			rows.WriteString("\n")
		}
		write(fmt.Sprintf("tavg-%02d.asc", month+1), "ncols 12\nnrows 2\nxllcorner -47.6\nyllcorner 38\ncellsize 0.1\nNODATA_value -9999\n"+rows.String())
	}
	write("halves.geojson", `{"type":"FeatureCollection","features":[
{"type":"Feature","properties":{"code":"W","name":"West Skerry"},"geometry":{"type":"Polygon","coordinates":[[[-47.6,38],[-47,38],[-47,38.2],[-47.6,38.2],[-47.6,38]]]}},
{"type":"Feature","properties":{"code":"E","name":"East Skerry"},"geometry":{"type":"Polygon","coordinates":[[[-47,38],[-46.4,38],[-46.4,38.2],[-47,38.2],[-47,38]]]}}]}`)
	write("places.csv", "name,lat,lon\nSkerry Haven,38.11,-47.3\n")
	write("skerry.yaml", `title: Soil warm-up, Skerry
edition: 2027
normals: {files: [tavg-*.asc], period: 1991-2020}
soil: {calibration: none}
windows:
  - {id: spring, title: Spring, threshold: 55 °F, starts: 54 °F, residual: short, ahead: 7 d, floor: 80 %}
regions: [{file: halves.geojson, id: code, name: name}]
places: places.csv
maps: none
size: 800
`)
	return filepath.Join(dir, "skerry.yaml")
}

// held is what a process holds between two builds.
type held struct {
	heap, resident          int64 // bytes, after collecting garbage; resident 0 where the system does not tell
	goroutines, descriptors int   // descriptors -1 where the system does not tell
	files, left             int   // of the edition; beside it and among temporary files
}

func holding(t *testing.T, out string) held {
	t.Helper()
	runtime.GC()
	runtime.GC() // what the first has finalized
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	h := held{heap: int64(m.HeapAlloc), goroutines: runtime.NumGoroutine(), descriptors: -1, files: len(files(t, out))}
	if list, err := os.ReadDir("/proc/self/fd"); err == nil {
		h.descriptors = len(list)
	}
	if text, err := os.ReadFile("/proc/self/statm"); err == nil {
		pages, _ := strconv.ParseInt(strings.Fields(string(text))[1], 10, 64)
		h.resident = pages * int64(os.Getpagesize())
	}
	for _, dir := range []string{filepath.Dir(out), os.TempDir()} {
		list, err := os.ReadDir(dir)
		if err != nil {
			t.Fatal(err)
		}
		h.left += len(list)
	}
	return h
}

// Builds in a row leave nothing behind: no memory, goroutines, descriptors, or
// files. With WEEKBAND_LONGRUN=100 these are 100 builds of the whole demo.
func TestBuildsInARowLeaveNothing(t *testing.T) {
	cold(t)
	unraced(t)
	builds, args := 20, []string{"build", islet(t)}
	if text := os.Getenv("WEEKBAND_LONGRUN"); text != "" {
		n, err := strconv.Atoi(text)
		if err != nil || n < 2 {
			t.Fatalf("WEEKBAND_LONGRUN=%s: want how many builds, 2 or more", text)
		}
		builds, args = n, []string{"demo"}
	}
	out := filepath.Join(t.TempDir(), "out")
	t.Setenv("TMPDIR", t.TempDir())
	began := time.Now()
	var first held // after a tenth of the builds: pools and caches are full
	for i := 1; i <= builds; i++ {
		if code, _, log := weekband(t, append(args, "--out", out)...); code != exitOK {
			t.Fatalf("build %d: exit code %d\n%s", i, code, log)
		}
		if i != 1 && i != (builds+9)/10 && i != builds/2 && i != builds {
			continue
		}
		h := holding(t, out)
		t.Logf("build %3d after %v: %+v", i, time.Since(began).Round(time.Second), h)
		if i <= (builds+9)/10 {
			first = h
			continue
		}
		if h.heap > first.heap+first.heap/10+1<<20 {
			t.Errorf("build %d: %d bytes of heap are held, %d after the first tenth", i, h.heap, first.heap)
		}
		if h.goroutines > first.goroutines || h.descriptors > first.descriptors || h.files != first.files || h.left != first.left {
			t.Errorf("build %d: %+v, after the first tenth %+v", i, h, first)
		}
	}
	if first.left != 1 {
		t.Errorf("%d files and folders are beside the edition and among temporary files, want the edition alone", first.left)
	}
}
