package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"weekband/grid/oracle"
)

// leastTerritory writes a recipe with little to draw, least.yaml, and what it
// names into a folder: two regions of the demo and the ground around them.
func leastTerritory(t *testing.T) (dir string) {
	t.Helper()
	dir, text := unpacked(t)
	at, end := strings.Index(text, "  - id: winter-annuals"), strings.Index(text, "regions:")
	text = text[:at] + text[end:] + "size: 800\nmaps: none\ngrid: {box: [-54, 38.4, -47.2, 40.4]}\n"
	text = strings.Replace(text, "regions.geojson", "few.geojson", 1)
	all, err := os.ReadFile(filepath.Join(dir, "regions.geojson"))
	if err != nil {
		t.Fatal(err)
	}
	var few struct {
		Type     string            `json:"type"`
		Features []json.RawMessage `json:"features"`
	}
	if err := json.Unmarshal(all, &few); err != nil {
		t.Fatal(err)
	}
	few.Features = few.Features[:2]
	if all, err = json.Marshal(few); err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{"few.geojson": string(all), "least.yaml": text} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// builtBy runs a build as a process of its own and returns what it wrote.
func builtBy(t *testing.T, cmd *exec.Cmd, out string) map[string][]byte {
	t.Helper()
	if text, err := cmd.CombinedOutput(); codeOf(t, err) != exitOK {
		t.Fatalf("%q: %v\n%s", cmd.Args, err, text)
	}
	return files(t, out)
}

// sameFiles compares two editions byte by byte.
func sameFiles(t *testing.T, want, got map[string][]byte) {
	t.Helper()
	for name, text := range want {
		if other, ok := got[name]; !ok {
			t.Errorf("%s was not written", name)
		} else if !bytes.Equal(text, other) {
			t.Errorf("%s differs", name)
		}
	}
	for name := range got {
		if _, ok := want[name]; !ok {
			t.Errorf("%s was not written before", name)
		}
	}
}

// Same inputs, same bytes, whatever else a machine's owner may change: workers,
// zone, language, home, mask, folder, the path to the recipe, the order, times
// and modes of the inputs, and what the process did before.
func TestSameBytesElsewhere(t *testing.T) {
	cold(t)
	unraced(t)
	dir, outs := leastTerritory(t), t.TempDir()
	out := func(name string) string { return filepath.Join(outs, name) }

	cold := child(t, "build", "least.yaml", "--out", out("cold"))
	cold.Dir = dir
	cold.Env = append(cold.Env, "GOMAXPROCS=1", "TZ=UTC", "LANG=C", "HOME="+t.TempDir())
	want := builtBy(t, cold, out("cold"))

	t.Run("another machine", func(t *testing.T) {
		old := syscall.Umask(0o077)
		defer syscall.Umask(old)
		link := filepath.Join(t.TempDir(), "link")
		if err := os.Symlink(moved(t, dir), link); err != nil {
			t.Fatal(err)
		}
		cmd := child(t, "build", filepath.Join(link, "least.yaml"), "--out", out("other"))
		cmd.Dir = t.TempDir()
		cmd.Env = append(cmd.Env, "GOMAXPROCS=8", "TZ=Pacific/Kiritimati", "LANG=de_DE.UTF-8", "LC_ALL=tr_TR.UTF-8", "HOME=/nowhere", "TMPDIR="+t.TempDir())
		sameFiles(t, want, builtBy(t, cmd, out("other")))
	})
	t.Run("a process that has built before", func(t *testing.T) {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(2))
		for _, name := range []string{"first", "second"} {
			if code, _, log := weekband(t, "build", filepath.Join(dir, "least.yaml"), "--out", out(name)); code != exitOK {
				t.Fatalf("exit code %d\n%s", code, log)
			}
			sameFiles(t, want, files(t, out(name)))
		}
	})
}

// moved copies a folder, its files last to first, with times of another year,
// and makes it read-only.
func moved(t *testing.T, dir string) (to string) {
	t.Helper()
	to = filepath.Join(t.TempDir(), "moved")
	if err := os.Mkdir(to, 0o755); err != nil {
		t.Fatal(err)
	}
	list, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for i, e := range slices.Backward(list) {
		text, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		name := filepath.Join(to, e.Name())
		if err := os.WriteFile(name, text, 0o444); err != nil {
			t.Fatal(err)
		}
		day := time.Date(1999, 12, 1+i, 0, 0, 0, 0, time.UTC)
		if err := os.Chtimes(name, day, day); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Chmod(to, 0o555); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.Chmod(to, 0o755) })
	return to
}

// Same bytes on arm64, where machine code for math differs from that of amd64
// as much as it does anywhere.
func TestSameBytesOnArm64(t *testing.T) {
	cold(t)
	unraced(t)
	oracle.Need(t, "qemu-aarch64")
	dir, outs := leastTerritory(t), t.TempDir()
	recipe := filepath.Join(dir, "least.yaml")
	here, there := filepath.Join(outs, "here"), filepath.Join(outs, "there")
	want := builtBy(t, child(t, "build", recipe, "--out", here), here)
	sameFiles(t, want, builtBy(t, exec.CommandContext(t.Context(), "qemu-aarch64", arm64Program(t), "build", recipe, "--out", there), there))
}

// Same bytes on amd64 of the third level, whose compiler fuses products and
// sums in the libraries too.
func TestSameBytesWithFusedSteps(t *testing.T) {
	cold(t)
	unraced(t)
	if !hasLevel3(t) {
		t.Skip("this processor has not the third level of amd64")
	}
	outs := t.TempDir()
	bin := filepath.Join(outs, "weekband")
	build := exec.CommandContext(t.Context(), "go", "build", "-ldflags=-w", "-o", bin, ".")
	build.Env = append(os.Environ(), "GOAMD64=v3")
	if text, err := build.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	out := filepath.Join(outs, "demo")
	sameFiles(t, files(t, demoEdition(t)), builtBy(t, exec.CommandContext(t.Context(), bin, "demo", "--out", out), out))
}

// hasLevel3 reports whether the processor has what GOAMD64=v3 asks for beyond
// v2 (x86-64 psABI, "Micro-Architecture Levels").
func hasLevel3(t *testing.T) bool {
	t.Helper()
	if runtime.GOARCH != "amd64" || runtime.GOOS != "linux" {
		return false
	}
	text, err := os.ReadFile("/proc/cpuinfo")
	if err != nil {
		t.Fatal(err)
	}
	for _, flag := range strings.Fields("avx avx2 bmi1 bmi2 f16c fma abm movbe xsave") {
		if !strings.Contains(string(text), fmt.Sprintf(" %s ", flag)) {
			return false
		}
	}
	return true
}
