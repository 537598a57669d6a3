//go:build unix

package sidebyside

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"runtime"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"weekband/grid/oracle"
)

// threads is how many threads, or processes, either side may use.
const threads = 2

// cost is what a piece of work takes, in seconds: by the clock, and of all
// processors together.
type cost struct{ Wall, CPU float64 }

// row is a line of the table.
type row struct {
	work         string
	size         string
	ours, theirs cost
	with         string // what the other side is made of
	agree        string
}

// best returns the least cost of some runs.
func best(t *testing.T, runs int, work func() error) cost {
	t.Helper()
	least := cost{1e9, 1e9}
	for range runs {
		runtime.GC()
		before, began := spent(syscall.RUSAGE_SELF), time.Now()
		if err := work(); err != nil {
			t.Fatal(err)
		}
		least.take(cost{time.Since(began).Seconds(), spent(syscall.RUSAGE_SELF) - before})
	}
	return least
}

func (c *cost) take(o cost) { c.Wall, c.CPU = min(c.Wall, o.Wall), min(c.CPU, o.CPU) }

// spent returns the seconds of processors used so far.
func spent(who int) float64 {
	var u syscall.Rusage
	if err := syscall.Getrusage(who, &u); err != nil {
		panic(err)
	}
	return float64(u.Utime.Nano()+u.Stime.Nano()) / 1e9
}

// answer is what a script tells of its own run.
type answer struct {
	cost
	Tools string
}

// script runs a script of testdata that times itself. Libraries underneath
// keep to one thread: the script shares the work out.
func script(t *testing.T, interpreter, name string, args ...string) answer {
	t.Helper()
	cmd := exec.Command(interpreter, append([]string{"testdata/" + name}, args...)...)
	cmd.Env = append(os.Environ(), "OPENBLAS_NUM_THREADS=1", "OMP_NUM_THREADS=1", "PYTHONDONTWRITEBYTECODE=1")
	var out, complaint bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &complaint
	if err := cmd.Run(); err != nil {
		t.Fatalf("%s %q: %v\n%s", name, args, err, &complaint)
	}
	var a answer
	if err := json.Unmarshal(out.Bytes(), &a); err != nil {
		t.Fatalf("%s %q: %v in %q", name, args, err, &out)
	}
	return a
}

// tool runs a program some times, each after clear, and returns the least
// cost with that of starting it.
func tool(t *testing.T, runs int, clear func(), name string, args ...string) cost {
	t.Helper()
	least := cost{1e9, 1e9}
	for range runs {
		clear()
		before, began := spent(syscall.RUSAGE_CHILDREN), time.Now()
		oracle.Run(t, nil, name, args...)
		least.take(cost{time.Since(began).Seconds(), spent(syscall.RUSAGE_CHILDREN) - before})
	}
	return least
}

// table returns the rows as Markdown.
func table(rows []row) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s, %d threads for either side, of which gdal_contour and GDAL's rasteriser use one; %s. Seconds by the clock, and of processors in brackets.\n\n", processor(), threads, runtime.Version())
	b.WriteString("| step | on | weekband | the same by | its time | times as long | both agree |\n|---|---|---|---|---|---|---|\n")
	for _, r := range rows {
		fmt.Fprintf(&b, "| %s | %s | %s | %s | %s | %s (%s) | %s |\n", r.work, r.size, r.ours, r.with, r.theirs,
			ratio(r.theirs.Wall/r.ours.Wall), ratio(r.theirs.CPU/r.ours.CPU), r.agree)
	}
	return b.String()
}

func (c cost) String() string { return seconds(c.Wall) + " (" + seconds(c.CPU) + ")" }

// seconds has three digits.
func seconds(v float64) string {
	switch {
	case v < 0.1:
		return strconv.FormatFloat(v, 'f', 3, 64)
	case v < 10:
		return strconv.FormatFloat(v, 'f', 2, 64)
	}
	return strconv.FormatFloat(v, 'f', 1, 64)
}

// ratio has two digits or more.
func ratio(v float64) string {
	if v < 10 {
		return strconv.FormatFloat(v, 'f', 1, 64)
	}
	return strconv.FormatFloat(v, 'f', 0, 64)
}

// processor returns the model of the processor.
func processor() string {
	text, err := os.ReadFile("/proc/cpuinfo")
	if err == nil {
		for line := range strings.Lines(string(text)) {
			if key, value, ok := strings.Cut(line, ":"); ok && strings.TrimSpace(key) == "model name" {
				return strings.TrimSpace(value)
			}
		}
	}
	return runtime.GOARCH
}

// python returns an interpreter that has what the scripts import.
func python(t *testing.T) string {
	t.Helper()
	return oracle.Python(t, "numpy", "scipy.signal", "osgeo.gdal")
}

// gdalVersion returns the version of GDAL's programs.
func gdalVersion(t *testing.T) string {
	t.Helper()
	words := strings.Fields(strings.ReplaceAll(string(oracle.Run(t, nil, "gdalinfo", "--version")), ",", ""))
	return words[1]
}
