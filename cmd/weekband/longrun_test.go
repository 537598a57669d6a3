package main

import (
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"
)

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
