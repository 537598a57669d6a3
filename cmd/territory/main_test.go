package main

import (
	"bytes"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
)

const published = "../weekband/internal/demo/territory"

// raced is true under the race detector, which makes inventing ten times slower;
// the gate runs that test without it.
var raced bool

// formed is the land, made once for all tests.
var formed = sync.OnceValue(form)

// The embedded files are what the generator writes. Only amd64 is held to
// the byte: where a compiler fuses a product with a sum, a river may take
// another way.
func TestEmbeddedFilesAreTheGenerators(t *testing.T) {
	if runtime.GOARCH != "amd64" {
		t.Skipf("%s may round products and sums in one step; the files are made on amd64", runtime.GOARCH)
	}
	if testing.Short() || raced {
		t.Skip("inventing the territory takes some ten seconds")
	}
	files, err := invent(formed())
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		have, err := os.ReadFile(filepath.Join(published, f.name))
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(have, f.data) {
			t.Errorf("%s: %d bytes embedded differ from %d bytes made now; run go run ./cmd/territory and look at what changed",
				f.name, len(have), len(f.data))
		}
	}
	entries, err := os.ReadDir(published)
	if err != nil {
		t.Fatal(err)
	}
	if len(entries) != len(files) {
		t.Errorf("%d files are embedded, the generator writes %d", len(entries), len(files))
	}
}

func TestRunRefusesWhatItDoesNotKnow(t *testing.T) {
	for _, args := range [][]string{{"-to", "x"}, {"stray"}} {
		var stdout, stderr strings.Builder
		if code := run(args, &stdout, &stderr); code != 2 {
			t.Errorf("run(%q) = %d, want 2", args, code)
		}
		if stderr.Len() == 0 {
			t.Errorf("run(%q) says nothing about what is wrong", args)
		}
	}
}
