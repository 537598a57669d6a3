package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// The tests, files and folders that DEVELOPERS.md names are there.
func TestGuideNamesWhatIsThere(t *testing.T) {
	guide, err := os.ReadFile("../../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	tests := map[string]bool{}
	for _, text := range testSources(t) {
		for _, m := range regexp.MustCompile(`(?m)^func (Test\w+)`).FindAllStringSubmatch(text, -1) {
			tests[m[1]] = true
		}
	}
	named := 0
	for _, m := range regexp.MustCompile("`(Test\\w+)`").FindAllStringSubmatch(string(guide), -1) {
		if named++; !tests[m[1]] {
			t.Errorf("DEVELOPERS.md names %s, and no test is called so", m[1])
		}
	}
	paths := regexp.MustCompile("`((?:cmd|grid|render|regions|\\.ci)/[\\w./*-]+)`").FindAllStringSubmatch(string(guide), -1)
	for _, m := range paths {
		found, err := filepath.Glob(filepath.Join("..", "..", filepath.FromSlash(m[1])))
		if err != nil || len(found) == 0 {
			t.Errorf("DEVELOPERS.md names %s, which is not there", m[1])
		}
	}
	if named < 10 || len(paths) < 40 {
		t.Errorf("%d tests and %d paths were found", named, len(paths))
	}
}

// testSources returns the text of all files of tests.
func testSources(t *testing.T) (texts []string) {
	t.Helper()
	list := exec.Command("go", "list", "-f", `{{$d := .Dir}}{{range .TestGoFiles}}{{$d}}/{{.}}{{"\n"}}{{end}}{{range .XTestGoFiles}}{{$d}}/{{.}}{{"\n"}}{{end}}`, "./...")
	list.Dir = filepath.Join("..", "..")
	out, err := list.Output()
	if err != nil {
		t.Fatal(err)
	}
	for path := range strings.Lines(string(out)) {
		if path = strings.TrimSpace(path); path == "" {
			continue
		}
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		texts = append(texts, string(text))
	}
	return texts
}
