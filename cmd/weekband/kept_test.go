package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/skerry"
)

// entriesOf returns the files of a folder of kept work.
func entriesOf(t *testing.T, cache string) []string {
	t.Helper()
	list, err := filepath.Glob(filepath.Join(cache, "*", "*"))
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// rewrite replaces text in a file; the text must be there.
func rewrite(t *testing.T, path, from, to string) {
	t.Helper()
	if err := skerry.Change(path, from, to); err != nil {
		t.Fatal(err)
	}
}

// Kept work never changes an edition: whatever was built before, it is that of
// a build that keeps nothing, to the byte. One byte of an input, one key of the
// recipe and another program make work of their own.
func TestKeptWorkIsNeverWrong(t *testing.T) {
	cold(t)
	unraced(t)
	recipe := islet(t)
	dir, cache := filepath.Dir(recipe), filepath.Join(t.TempDir(), "work")
	key := func(from, to string) func() { return func() { rewrite(t, recipe, from, to) } }
	nudge := func() { // the last digit of April
		path := filepath.Join(dir, "tavg-04.asc")
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		data[bytes.LastIndexAny(data, "0123456789")] ^= 1
		if err := os.WriteFile(path, data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	var first, want map[string][]byte
	for _, step := range []struct {
		name   string
		do     func()
		change bool // of the edition
		same   bool // as the first; nothing new is made
	}{
		{name: "first", change: true, do: func() {}},
		{name: "again", do: func() {}, same: true},
		{name: "one byte of an input", change: true, do: nudge},
		{name: "back", do: nudge, same: true},
		{name: "title", change: true, do: key("title: Soil warm-up, Skerry", "title: The same skerry")},
		{name: "threshold", change: true, do: key("55 °F", "55.000001 °F")},
		{name: "floor", change: true, do: key("80 %", "75 %")},
		{name: "depth", change: true, do: key("calibration: none", "depth: 2 in")},
		{name: "damaged entries", do: func() {
			for _, path := range entriesOf(t, cache) {
				data, err := os.ReadFile(path)
				if err != nil {
					t.Fatal(err)
				}
				data[len(data)/2] ^= 0x10
				if err := os.WriteFile(path, data, 0o600); err != nil {
					t.Fatal(err)
				}
			}
		}},
		{name: "no folder", do: func() { os.RemoveAll(cache) }},
	} {
		step.do()
		before := len(entriesOf(t, cache))
		kept := filepath.Join(t.TempDir(), "out")
		if code, _, log := weekband(t, "build", recipe, "--out", kept, "--cache", cache); code != exitOK || strings.Contains(log, "note: n") {
			t.Fatalf("%s: exit code %d\n%s", step.name, code, log)
		}
		switch {
		case step.same:
			want = first
		case step.change:
			want = built(t, recipe, filepath.Join(t.TempDir(), "out"))
		}
		if first == nil {
			first = want
		}
		t.Log(step.name)
		sameFiles(t, want, files(t, kept)) // want is of a build that keeps nothing
		if now := len(entriesOf(t, cache)); step.same != (now == before) && step.name != "damaged entries" {
			t.Errorf("%s: %d entries were kept before, %d after", step.name, before, now)
		}
	}
	checkAnotherProgram(t, recipe, cache)
}

// checkAnotherProgram runs a program that differs in one byte, at the end,
// where it is not read: what the first has kept must not be there for it.
func checkAnotherProgram(t *testing.T, recipe, cache string) {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(self)
	if err != nil {
		t.Fatal(err)
	}
	other := filepath.Join(t.TempDir(), filepath.Base(self))
	if err := os.WriteFile(other, append(data, 0), 0o755); err != nil {
		t.Fatal(err)
	}
	before := len(entriesOf(t, cache))
	run := child(t, "build", recipe, "--out", filepath.Join(t.TempDir(), "out"), "--cache", cache)
	run.Path = other
	if out, err := run.CombinedOutput(); err != nil {
		t.Skipf("a program with a byte at its end does not run here: %v\n%s", err, out)
	}
	if now := len(entriesOf(t, cache)); now != 2*before {
		t.Errorf("%d entries of one program, then %d of two; want twice as many", before, now)
	}
}

// A check tells what a build would change, and why, and writes nothing.
func TestCheckWritesNothing(t *testing.T) {
	unraced(t)
	recipe, retitled := islets(t)
	out := filepath.Join(t.TempDir(), "vale")
	ask := func(recipe string, want ...string) {
		t.Helper()
		code, said, log := weekband(t, "build", "--check", recipe, "--out", out)
		if code != exitOK {
			t.Fatalf("exit code %d\n%s", code, log)
		}
		for _, w := range want {
			if !strings.Contains(said, w) {
				t.Errorf("lacks %q:\n%s", w, said)
			}
		}
	}
	ask(recipe, "does not stand yet", "files of")
	if _, err := os.Stat(out); !os.IsNotExist(err) {
		t.Fatalf("a check made %s", out)
	}
	if code, _, log := weekband(t, "build", recipe, "--out", out); code != exitOK {
		t.Fatalf("exit code %d\n%s", code, log)
	}
	before := files(t, out)
	ask(recipe, "would stay as it is", "the same to the byte")
	ask(retitled, "would change", "because of other settings: title", "other in the folder itself: ", "manifest.json", "other in maps: ")
	if after := files(t, out); len(after) != len(before) || !bytes.Equal(after["manifest.json"], before["manifest.json"]) {
		t.Error("a check changed the edition")
	}
	if err := os.Remove(filepath.Join(out, "index.html")); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(out, "note.txt"), []byte("mine"), 0o644); err != nil {
		t.Fatal(err)
	}
	ask(recipe, "0 would be others, 1 new; 1 would go", "new in the folder itself: index.html", "gone in the folder itself: note.txt")
}

// How long an edition takes to build: for the first time, again, and under
// another title.
func BenchmarkBuild(b *testing.B) {
	dir := b.TempDir()
	run := func(args ...string) {
		if code := run(b.Context(), append(args, "--quiet"), &bytes.Buffer{}, os.Stderr); code != exitOK {
			b.Fatalf("exit code %d", code)
		}
	}
	run("demo", "--unpack", filepath.Join(dir, "merrow"))
	recipe, cache := filepath.Join(dir, "merrow", "recipe.yaml"), filepath.Join(dir, "work")
	text, err := os.ReadFile(recipe)
	if err != nil {
		b.Fatal(err)
	}
	build := func(b *testing.B, cache string, n int) {
		titled := bytes.Replace(text, []byte("\ntitle: "), append([]byte("\ntitle: "), strings.Repeat("New ", n)...), 1)
		if err := os.WriteFile(recipe, titled, 0o644); err != nil {
			b.Fatal(err)
		}
		run("build", recipe, "--out", filepath.Join(dir, "out"), "--cache", cache)
	}
	b.Run("first", func(b *testing.B) {
		for b.Loop() {
			build(b, "off", 0)
		}
	})
	build(b, cache, 0)
	b.Run("again", func(b *testing.B) {
		for b.Loop() {
			build(b, cache, 0)
		}
	})
	b.Run("title", func(b *testing.B) {
		for n := 1; b.Loop(); n++ {
			build(b, cache, n)
		}
	})
}
