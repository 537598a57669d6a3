package publish_test

import (
	"bufio"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/publish"
)

// The test binary runs itself as a program that publishes, so that it can be
// killed. Its arguments stand in this variable: what to do, and the target.
const childVariable = "WEEKBAND_TEST_PUBLISHES"

func TestMain(m *testing.M) {
	if args := os.Getenv(childVariable); args != "" {
		do, target, _ := strings.Cut(args, " ")
		if err := publishes(do, target); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		os.Exit(0)
	}
	os.Exit(m.Run())
}

// publishes is what the child does: "once", "forever", or "hold" until its
// standard input ends.
func publishes(do, target string) error {
	for n := 0; ; n++ {
		s, err := publish.Begin(target)
		if err != nil {
			return err
		}
		if n == 0 {
			fmt.Println("begun")
		}
		for _, note := range s.Notes() {
			fmt.Println(note)
		}
		if err := s.End(fill(s, fmt.Sprintf("%d-%d", os.Getpid(), n))); err != nil {
			return err
		}
		if do == "once" {
			return nil
		}
		if do == "hold" {
			s, err := publish.Begin(target)
			if err != nil {
				return err
			}
			fmt.Println("held")
			io.Copy(io.Discard, os.Stdin)
			s.Discard()
			return nil
		}
	}
}

const (
	editionFiles = 40
	editionBytes = 2000 // of each file
)

// fill writes an edition all of whose files tell which it is, and publishes it.
func fill(s *publish.Staging, which string) error {
	body := []byte(strings.Repeat(which+"\n", editionBytes/(len(which)+1)))
	for i := range editionFiles {
		dir := "part-" + strconv.Itoa(i%4)
		if err := s.Root().MkdirAll(dir, 0o755); err != nil {
			return err
		}
		if err := s.Root().WriteFile(filepath.Join(dir, strconv.Itoa(i)), body, 0o644); err != nil {
			return err
		}
	}
	if err := s.Root().WriteFile(publish.Marker, marker(which), 0o644); err != nil {
		return err
	}
	return s.Commit(context.Background())
}

// edition fails the test unless target holds a whole edition, and returns
// which.
func edition(t *testing.T, target string) string {
	t.Helper()
	which := marked(t, target)
	body := strings.Repeat(which+"\n", editionBytes/(len(which)+1))
	for i := range editionFiles {
		if got := read(t, filepath.Join(target, "part-"+strconv.Itoa(i%4), strconv.Itoa(i))); got != body {
			t.Fatalf("file %d is of another edition, or half written", i)
		}
	}
	return which
}

// marker is the text of an edition's Marker.
func marker(which string) []byte {
	return []byte(`{"program": "weekband", "which": "` + which + `"}`)
}

// marked returns what marker was given.
func marked(t *testing.T, target string) string {
	t.Helper()
	var m struct{ Which string }
	if err := json.Unmarshal([]byte(read(t, filepath.Join(target, publish.Marker))), &m); err != nil {
		t.Fatal(err)
	}
	return m.Which
}

// begun is the error of a Begin that is given up.
func begun(target string) error {
	s, err := publish.Begin(target)
	if err == nil {
		s.Discard()
	}
	return err
}

// alone fails the test unless nothing lies beside target.
func alone(t *testing.T, target string) {
	t.Helper()
	left, err := os.ReadDir(filepath.Dir(target))
	if err != nil || len(left) != 1 || left[0].Name() != filepath.Base(target) {
		t.Fatalf("beside %s: %v, %v", filepath.Base(target), left, err)
	}
}

// again publishes once more, and fails the test unless that leaves a whole
// edition and nothing beside it. It returns the notes.
func again(t *testing.T, target, which string) []string {
	t.Helper()
	s, err := publish.Begin(target)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.End(fill(s, which)); err != nil {
		t.Fatal(err)
	}
	if got := edition(t, target); got != which {
		t.Fatalf("%s holds the edition %s, want %s", target, got, which)
	}
	alone(t, target)
	return s.Notes()
}

// child prepares a run of the test binary as a program that publishes,
// through a wrapper such as strace, if any.
func child(t *testing.T, do, target string, wrapper ...string) *exec.Cmd {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	args := append(wrapper, self)
	cmd := exec.Command(args[0], args[1:]...)
	cmd.Env = append(os.Environ(), childVariable+"="+do+" "+target)
	return cmd
}

// await starts a child and returns when it has printed a line.
func await(t *testing.T, cmd *exec.Cmd, line string) {
	t.Helper()
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { cmd.Process.Kill() })
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		if lines.Text() == line {
			return
		}
	}
	t.Fatalf("the child ended before it printed %q", line)
}
