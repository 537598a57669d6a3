package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Where names cannot be exchanged a killed build may leave the edition hidden.
// Those who read find it there, and the next build puts it back.
func TestHiddenEditionIsRead(t *testing.T) {
	out := filepath.Join(t.TempDir(), "out", "vale")
	before, second := stood(t, out)
	hidden := filepath.Join(filepath.Dir(out), ".vale.previous")
	if err := os.Rename(out, hidden); err != nil {
		t.Fatal(err)
	}
	code, reply, log := weekband(t, "lookup", out, "40.5,-52")
	if code != exitOK || reply == "" || !strings.Contains(log, "has left the edition of "+out+" hidden in "+hidden) {
		t.Errorf("exit code %d, answered %q, said %q", code, reply, log)
	}
	unchanged(t, hidden, before)
	broken := filepath.Join(filepath.Dir(second), "broken.yaml")
	if err := os.WriteFile(broken, []byte("title: Vale\nedition: 2027\nnormals: {files: [none.asc], unit: C}\nwindows: [{id: a, title: A, threshold: 55 °F, direction: warming}]\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	code, _, log = weekband(t, "build", broken, "--out", out)
	if code != exitData || !strings.Contains(log, "it is in "+out+" again") {
		t.Errorf("exit code %d, said %q", code, log)
	}
	unchanged(t, out, before)
	tidy(t, out)
}
