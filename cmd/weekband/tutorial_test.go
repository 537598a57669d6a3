package main

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// fenced is a block of README.md: commands, or what they print.
type fenced struct {
	prints bool
	lines  []string
	before string // the words before it
}

// tutorial returns the blocks of a chapter of README.md.
func tutorial(t *testing.T, title string) (blocks []fenced) {
	t.Helper()
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, chapter, found := strings.Cut(string(text), "\n## "+title+"\n")
	if !found {
		t.Fatalf("README.md has no chapter %q", title)
	}
	chapter, _, _ = strings.Cut(chapter, "\n## ")
	parts := strings.Split(chapter, "```")
	for i := 1; i < len(parts); i += 2 {
		kind, body, _ := strings.Cut(parts[i], "\n")
		blocks = append(blocks, fenced{kind == "text", strings.Split(strings.TrimRight(body, "\n"), "\n"), parts[i-1]})
	}
	return blocks
}

// What README.md tells a newcomer to do can be done, in its order, and prints what
// stands there; … stands for any lines.
func TestTutorial(t *testing.T) {
	edition := demoEdition(t)
	blocks := tutorial(t, "Five minutes in Merrow")
	change := regexp.MustCompile("`([^`]+)` to\\s+`([^`]+)`")
	t.Chdir(t.TempDir())
	if err := os.Mkdir("out", 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(edition, filepath.Join("out", "demo")); err != nil {
		t.Fatal(err)
	}
	printed, ran := "", 0
	for _, b := range blocks {
		for _, c := range change.FindAllStringSubmatch(b.before, -1) {
			rewrite(t, filepath.Join("merrow", "recipe.yaml"), c[1], c[2])
		}
		if b.prints {
			if missing := firstMissing(strings.Split(printed, "\n"), b.lines); missing != "" {
				t.Errorf("README.md has %q, which is not printed there:\n%s", missing, printed)
			}
			continue
		}
		for _, line := range b.lines {
			args := strings.Fields(strings.TrimPrefix(line, "go run ./cmd/weekband "))
			if slices.Contains(args, "preview") { // waits for Ctrl-C; has tests of its own
				continue
			}
			code, text, log := weekband(t, args...)
			if code != exitOK {
				t.Fatalf("%s: exit code %d\n%s%s", line, code, text, log)
			}
			printed = text
			ran++
		}
	}
	for _, made := range []string{"out/moved/summer-annuals.png", "out/warmer/maps/summer-annuals-handout.pdf", "out/warmer/tables/regions.xlsx", "verify.png"} {
		if _, err := os.Stat(made); err != nil {
			t.Error(err)
		}
	}
	if ran < 6 {
		t.Errorf("%d commands were found", ran)
	}
}

// firstMissing returns the first of the wanted lines that is not among those
// printed, in their order; "" when all are.
func firstMissing(printed, wanted []string) string {
	at := 0
	for _, line := range wanted {
		if line == "…" {
			continue
		}
		i := slices.Index(printed[at:], line)
		if i < 0 {
			return line
		}
		at += i + 1
	}
	return ""
}

// The recipe that README.md gives to start from works, with files like those it
// names.
func TestReadmeRecipe(t *testing.T) {
	dir := filepath.Dir(islet(t))
	text := ""
	for _, b := range tutorial(t, "Your own normals") {
		if strings.HasPrefix(b.lines[0], "title: ") {
			text = strings.Join(b.lines, "\n")
		}
	}
	if text == "" {
		t.Fatal("README.md has no recipe there")
	}
	write := func(name, text string) {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write("vale.yaml", text)
	if err := os.Mkdir(filepath.Join(dir, "normals"), 0o755); err != nil {
		t.Fatal(err)
	}
	for from, to := range map[string]string{"tavg-*.asc": "normals", "halves.geojson": "counties.geojson"} {
		found, err := filepath.Glob(filepath.Join(dir, from))
		if err != nil || len(found) == 0 {
			t.Fatal(err, found)
		}
		for _, name := range found {
			target := filepath.Join(dir, to)
			if len(found) > 1 {
				target = filepath.Join(target, filepath.Base(name))
			}
			if err := os.Rename(name, target); err != nil {
				t.Fatal(err)
			}
		}
	}
	out := filepath.Join(dir, "out")
	if code, text, log := weekband(t, "build", filepath.Join(dir, "vale.yaml"), "--out", out, "--stream"); code != exitOK {
		t.Errorf("exit code %d\n%s%s", code, text, log)
	}
}
