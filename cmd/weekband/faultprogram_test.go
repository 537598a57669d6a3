package main

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"
	"time"
)

// program prepares a run of weekband that may be killed; its complaints are in
// the buffer afterwards.
func program(t *testing.T, args ...string) (*exec.Cmd, *bytes.Buffer) {
	t.Helper()
	cmd := child(t, args...)
	log := &bytes.Buffer{}
	cmd.Stderr = log
	t.Cleanup(func() {
		if cmd.Process != nil {
			cmd.Process.Kill()
		}
	})
	return cmd, log
}

// isletOnce holds the files of the first edition.
var isletOnce struct {
	sync.Once
	files map[string][]byte
}

// stood puts the first edition into a folder, built once for all tests, and
// returns its files and the recipe of the second.
func stood(t *testing.T, out string) (before map[string][]byte, second string) {
	t.Helper()
	unraced(t)
	first, second := islets(t)
	isletOnce.Do(func() { isletOnce.files = built(t, first, filepath.Join(t.TempDir(), "vale")) })
	for name, text := range isletOnce.files {
		path := filepath.Join(out, filepath.FromSlash(name))
		if err := errors.Join(os.MkdirAll(filepath.Dir(path), 0o755), os.WriteFile(path, text, 0o644)); err != nil {
			t.Fatal(err)
		}
	}
	return isletOnce.files, second
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
