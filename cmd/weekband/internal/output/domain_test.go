package output

import (
	"os"
	"testing"

	"weekband/cmd/weekband/internal/recipe"
)

// publishedAt returns a recipe with further lines, and a folder.
func publishedAt(t *testing.T, lines string) (*recipe.Recipe, *os.Root) {
	t.Helper()
	r, err := recipe.Decode([]byte("title: Soil & weeks, Vale\nedition: 2027\nnormals: {files: x, period: 1991-2020}\nwindows: [{id: spring, title: Spring weeds, threshold: 55 F}]\n"+lines), "vale.yaml")
	if err != nil {
		t.Fatal(err)
	}
	root, err := os.OpenRoot(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { root.Close() })
	return r, root
}

func TestDomain(t *testing.T) {
	for lines, want := range map[string]string{
		"": "soil-weeks-vale.weekband.invalid", "address: https://Soil.example\n": "soil.example", "address: https://soil.example:8443/vale/index.html\n": "soil.example/vale",
	} {
		if r, _ := publishedAt(t, lines); domain(r) != want {
			t.Errorf("%q: %s, want %s", lines, domain(r), want)
		}
	}
	r, _ := publishedAt(t, "")
	r.Title = "谷の国"
	if got := domain(r); got != "weekband.invalid" {
		t.Errorf("a title without Latin letters: %s", got)
	}
}
