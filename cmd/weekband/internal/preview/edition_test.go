package preview_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/preview"
)

// A build that replaces the edition is seen at once.
func TestNewEditionIsServed(t *testing.T) {
	out := small(t)
	h := handler(t, out)
	if err := os.Rename(out, out+"-previous"); err != nil {
		t.Fatal(err)
	}
	if r := ask(h, "GET", "/"); r.StatusCode != 404 {
		t.Errorf("%d while the edition is away", r.StatusCode)
	}
	write(t, filepath.Join(out, "index.html"), "<p>new")
	if r := ask(h, "GET", "/"); body(t, r) != "<p>new" {
		t.Errorf("%d, not the new edition", r.StatusCode)
	}
}

func TestWhatIsNoEdition(t *testing.T) {
	empty := t.TempDir()
	half := t.TempDir()
	write(t, filepath.Join(half, "manifest.json"), "{}")
	file := filepath.Join(small(t), "index.html")
	for folder, want := range map[string]string{
		empty: "is no edition, for it has no manifest.json", half: "has no index.html", file: "is a file", filepath.Join(empty, "gone"): "no such file",
	} {
		_, err := preview.NewHandler(folder)
		if err == nil || !strings.Contains(err.Error(), want) || !strings.Contains(err.Error(), folder) || !strings.Contains(err.Error(), "out/demo") {
			t.Errorf("%s: %v, want %q", folder, err, want)
		}
	}
}
