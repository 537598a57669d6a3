package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
)

// With this variable set the test binary runs as weekband itself, so that it
// can be killed.
const asProgram = "WEEKBAND_TEST_IS_WEEKBAND"

// program prepares such a run; its complaints are in the buffer afterwards.
func program(t *testing.T, args ...string) (*exec.Cmd, *bytes.Buffer) {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(self, args...)
	cmd.Env = append(os.Environ(), asProgram+"=yes")
	log := &bytes.Buffer{}
	cmd.Stderr = log
	t.Cleanup(func() {
		if cmd.Process != nil {
			cmd.Process.Kill()
		}
	})
	return cmd, log
}

// least writes recipes of two editions of a small invented valley, which are
// as quick to build as any and differ in the title.
func least(t *testing.T) (first, second string) {
	t.Helper()
	dir := t.TempDir()
	for month := range 12 {
		var b strings.Builder
		b.WriteString("ncols 7\nnrows 5\nxllcorner -53\nyllcorner 40\ncellsize 0.25\n")
		for row := range 5 {
			for col := range 7 {
				fmt.Fprintf(&b, "%.2f ", 9+1.2*float64(row)+0.3*float64(col)-12*math.Cos(2*math.Pi*(float64(month)+0.5)/12-0.4))
			}
			b.WriteString("\n")
		}
		if err := os.WriteFile(filepath.Join(dir, fmt.Sprintf("tavg-%02d.asc", month+1)), []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for _, title := range []string{"Vale", "Vale again"} {
		text := "title: " + title + "\nedition: 2027\nnormals: {files: [tavg-*.asc], unit: C}\nsoil: {calibration: none}\nsize: 800\nmaps: none\n" +
			"windows:\n  - {id: summer, title: Summer weeds, threshold: 55 °F, starts: 54 °F, direction: warming, ahead: 7 d, floor: 95 %}\n"
		first, second = second, filepath.Join(dir, title+".yaml")
		if err := os.WriteFile(second, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return first, second
}

// leastOnce holds the files of the first edition.
var leastOnce struct {
	sync.Once
	files map[string][]byte
}

// stood puts the first edition into a folder, built once for all tests, and
// returns its files and the recipe of the second.
func stood(t *testing.T, out string) (before map[string][]byte, second string) {
	t.Helper()
	unraced(t)
	first, second := least(t)
	leastOnce.Do(func() { leastOnce.files = built(t, first, filepath.Join(t.TempDir(), "vale")) })
	for name, text := range leastOnce.files {
		path := filepath.Join(out, filepath.FromSlash(name))
		if err := errors.Join(os.MkdirAll(filepath.Dir(path), 0o755), os.WriteFile(path, text, 0o644)); err != nil {
			t.Fatal(err)
		}
	}
	return leastOnce.files, second
}

// built builds an edition and returns its files.
func built(t *testing.T, recipe, out string) map[string][]byte {
	t.Helper()
	if code, _, log := weekband(t, "build", recipe, "--out", out); code != exitOK {
		t.Fatalf("exit code %d\n%s", code, log)
	}
	return files(t, out)
}

// unchanged fails the test unless a folder holds just these files.
func unchanged(t *testing.T, out string, want map[string][]byte) {
	t.Helper()
	got := files(t, out)
	if len(got) != len(want) {
		t.Fatalf("%d files, want %d", len(got), len(want))
	}
	for name, text := range want {
		if !bytes.Equal(got[name], text) {
			t.Fatalf("%s differs", name)
		}
	}
}

// tidy fails the test unless nothing lies beside a folder.
func tidy(t *testing.T, out string) {
	t.Helper()
	left, err := os.ReadDir(filepath.Dir(out))
	if err != nil || len(left) != 1 {
		t.Fatalf("left behind: %v, %v", left, err)
	}
}

// written waits until a build has written some files and returns true, or
// false when it ended before.
func written(out string, count int, ended <-chan error) bool {
	for {
		n := 0
		fresh, _ := filepath.Glob(filepath.Join(filepath.Dir(out), "."+filepath.Base(out)+".fresh-*"))
		for _, dir := range fresh {
			fs.WalkDir(os.DirFS(dir), ".", func(_ string, d fs.DirEntry, err error) error {
				if err == nil && !d.IsDir() {
					n++
				}
				return nil // what is being written comes and goes
			})
		}
		if len(fresh) > 0 && n >= count {
			return true
		}
		select {
		case <-ended:
			return false
		case <-time.After(time.Millisecond):
		}
	}
}

// ends starts a program and gives its end.
func ends(t *testing.T, cmd *exec.Cmd) <-chan error {
	t.Helper()
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	ended := make(chan error, 1)
	go func() { ended <- cmd.Wait(); close(ended) }()
	return ended
}
