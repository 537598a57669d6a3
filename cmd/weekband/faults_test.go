package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"weekband/grid/oracle"
)

// A build is killed when it has written so many files: the previous edition
// is what it was, and the next build leaves nothing else.
func TestKilledBuilds(t *testing.T) {
	cold(t)
	out := filepath.Join(t.TempDir(), "out", "vale")
	before, second := stood(t, out)
	for _, count := range []int{0, 1, 2, 5, 10, 15, 20, 25, 30, 35} {
		cmd, log := program(t, "build", second, "--out", out)
		ended := ends(t, cmd)
		if !written(out, count, ended) {
			t.Fatalf("it ended before it had written %d files\n%s", count, log)
		}
		if err := cmd.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		<-ended
		unchanged(t, out, before)
	}
	after := built(t, second, out)
	if len(after) != len(before) || bytes.Equal(after["manifest.json"], before["manifest.json"]) {
		t.Errorf("the next build wrote %d files", len(after))
	}
	tidy(t, out)
}

// Ctrl-C, and the signal that asks programs to end, are answered with exit code
// 130 and nothing left behind. A second Ctrl-C ends the program at once.
func TestInterruptedBuilds(t *testing.T) {
	cold(t)
	out := filepath.Join(t.TempDir(), "out", "vale")
	before, second := stood(t, out)
	for _, signal := range []os.Signal{os.Interrupt, syscall.SIGTERM} {
		cmd, log := program(t, "build", second, "--out", out)
		ended := ends(t, cmd)
		written(out, 3, ended)
		if err := cmd.Process.Signal(signal); err != nil {
			t.Fatal(err)
		}
		exit, ok := errors.AsType[*exec.ExitError](<-ended)
		if !ok || exit.ExitCode() != exitInterrupted || !strings.Contains(log.String(), "interrupted; what stood before stands still") {
			t.Errorf("%v: %v\n%s", signal, exit, log)
		}
		unchanged(t, out, before)
		tidy(t, out)
	}
	cmd, log := program(t, "build", second, "--out", out)
	ended := ends(t, cmd)
	written(out, 1, ended)
	for alive := true; alive; { // the first is answered within moments, and then any other ends it
		cmd.Process.Signal(os.Interrupt)
		select {
		case err := <-ended:
			exit, ok := errors.AsType[*exec.ExitError](err)
			if !ok || exit.Sys().(syscall.WaitStatus).Signal() != syscall.SIGINT {
				t.Errorf("after many signals: %v\n%s", err, log)
			}
			alive = false
		case <-time.After(time.Millisecond):
		}
	}
	unchanged(t, out, before)
}

// A disk is full after so many kilobytes of the new edition, or after so many
// files.
func TestBuildOnFullDisk(t *testing.T) {
	cold(t)
	oracle.Privileged(t)
	kept := filepath.Join(t.TempDir(), "vale")
	before, second := stood(t, kept)
	var pages int
	for _, text := range before {
		pages += (len(text) + 4095) / 4096
	}
	for _, room := range []struct {
		share float64 // of an edition's bytes that there is room for
		files int
	}{{0.02, 0}, {0.4, 0}, {0.9, 0}, {0.97, 0}, {2, 20}} {
		options := fmt.Sprintf("size=%dk", 4*(pages+int(room.share*float64(pages))))
		if room.files > 0 {
			options += fmt.Sprintf(",nr_inodes=%d", len(before)+room.files)
		}
		t.Run(options, func(t *testing.T) {
			out := filepath.Join(oracle.Memory(t, options), "vale")
			if err := os.CopyFS(out, os.DirFS(kept)); err != nil {
				t.Fatal(err)
			}
			code, _, log := weekband(t, "build", second, "--out", out)
			if code != exitData || !strings.Contains(log, "no room is left there") || !strings.Contains(log, "what stood in "+out+" before stands still") {
				t.Errorf("exit code %d\n%s", code, log)
			}
			unchanged(t, out, before)
			tidy(t, out)
		})
	}
}

// The second of two builds is told of the first, and leaves all as it is.
func TestTwoBuildsAtOnce(t *testing.T) {
	out := filepath.Join(t.TempDir(), "out", "vale")
	before, second := stood(t, out)
	cmd, _ := program(t, "build", second, "--out", out)
	ended := ends(t, cmd)
	written(out, 0, ended)
	code, _, log := weekband(t, "build", second, "--out", out)
	if code != exitData || !strings.Contains(log, fmt.Sprintf("another weekband (process %d, since ", cmd.Process.Pid)) {
		t.Errorf("exit code %d\n%s", code, log)
	}
	unchanged(t, out, before)
	if err := cmd.Process.Signal(os.Interrupt); err != nil {
		t.Fatal(err)
	}
	<-ended
	tidy(t, out)
}

// What a killed demo has unpacked goes with the next one.
func TestKilledDemo(t *testing.T) {
	unraced(t)
	dir := t.TempDir()
	t.Setenv("TMPDIR", dir)
	out := filepath.Join(dir, "out", "demo")
	for range 2 {
		cmd, _ := program(t, "demo", "--out", out)
		ended := ends(t, cmd)
		if !written(out, 0, ended) {
			t.Fatal("the demo ended before it had begun")
		}
		if err := cmd.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		<-ended
	}
	for _, pattern := range []string{filepath.Join(dir, "weekband-demo-*"), filepath.Join(dir, "out", ".demo.fresh-*")} {
		if left, err := filepath.Glob(pattern); err != nil || len(left) != 1 {
			t.Errorf("two killed demos left %v, %v; want what the second left", left, err)
		}
	}
}

// A recipe that lies in the edition it describes would be removed with it.
func TestRecipeWithinItsEdition(t *testing.T) {
	out := filepath.Join(t.TempDir(), "out", "vale")
	_, second := stood(t, out)
	moved := filepath.Join(out, "source")
	if err := os.Rename(filepath.Dir(second), moved); err != nil {
		t.Fatal(err)
	}
	before := files(t, out)
	recipe := filepath.Join(moved, filepath.Base(second))
	code, _, log := weekband(t, "build", recipe, "--out", out)
	if code != exitData || !strings.Contains(log, "it holds "+recipe+", which is read and would be removed") {
		t.Errorf("exit code %d, said %q", code, log)
	}
	unchanged(t, out, before)
}
