package scratch_test

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"weekband/cmd/weekband/internal/scratch"
)

// The test binary runs itself as a program that keeps a temporary folder until
// its standard input ends, so that it can be killed.
const childVariable = "WEEKBAND_TEST_KEEPS"

func TestMain(m *testing.M) {
	if word := os.Getenv(childVariable); word != "" {
		d, err := scratch.New(word)
		if err != nil {
			panic(err)
		}
		fmt.Println(d.Path())
		io.Copy(io.Discard, os.Stdin)
		os.Exit(0)
	}
	os.Exit(m.Run())
}

// keeper starts such a program and returns its folder, with a file in it.
func keeper(t *testing.T, word string) (cmd *exec.Cmd, folder string) {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd = exec.Command(self)
	cmd.Env = append(os.Environ(), childVariable+"="+word)
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if _, err := cmd.StdinPipe(); err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { cmd.Process.Kill() })
	lines := bufio.NewScanner(out)
	if !lines.Scan() {
		t.Fatal("the program printed no folder")
	}
	folder = lines.Text()
	if err := os.WriteFile(filepath.Join(folder, "copy"), []byte("x"), 0o644); err != nil {
		t.Fatal(err)
	}
	return cmd, folder
}

// What a killed program has left goes with the next; what a living one keeps,
// and what is of another word or maker, stays.
func TestFoldersDoNotPileUp(t *testing.T) {
	dir := t.TempDir()
	t.Setenv("TMPDIR", dir)
	foreign := filepath.Join(dir, "weekband-demo-letter.txt")
	if err := os.WriteFile(foreign, []byte("dear"), 0o644); err != nil {
		t.Fatal(err)
	}
	_, kept := keeper(t, "demo")
	_, other := keeper(t, "convert")
	for range 3 {
		cmd, left := keeper(t, "demo")
		if err := cmd.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		cmd.Wait()
		if _, err := os.Stat(left); err != nil {
			t.Fatalf("a killed program leaves nothing? %v", err)
		}
	}
	d, err := scratch.New("demo")
	if err != nil {
		t.Fatal(err)
	}
	names, err := os.ReadDir(dir)
	if err != nil || len(names) != 4 {
		t.Errorf("there are %v, %v; want what lives, what is kept and the letter", names, err)
	}
	for _, path := range []string{foreign, filepath.Join(kept, "copy"), filepath.Join(other, "copy"), d.Path()} {
		if _, err := os.Stat(path); err != nil {
			t.Error(err)
		}
	}
	if err := d.Close(); err != nil {
		t.Error(err)
	}
	if _, err := os.Stat(d.Path()); !os.IsNotExist(err) {
		t.Errorf("after Close: %v", err)
	}
}

func TestNoPlaceForFolders(t *testing.T) {
	t.Setenv("TMPDIR", filepath.Join(t.TempDir(), "none"))
	if _, err := scratch.New("demo"); err == nil {
		t.Error("a folder in a folder that is not there")
	}
}
