package main

import (
	"bytes"
	"crypto/sha256"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/publish"
)

// partsOf works the islet's rows out apart, one by its number and one as a
// share, and returns their files.
func partsOf(t *testing.T, recipe, out string) []string {
	t.Helper()
	for _, flag := range []string{"--rows=0:1", "--share=1/2"} {
		if code, _, log := weekband(t, "build", recipe, "--out", out, flag); code != exitOK {
			t.Fatalf("%s: exit code %d\n%s", flag, code, log)
		}
	}
	parts := []string{out + "-rows-1-2.part", out + "-rows-0-1.part"}
	for _, path := range parts {
		if _, err := os.Stat(path); err != nil {
			t.Fatal(err)
		}
	}
	return parts
}

// An edition of rows that were worked out apart is that of one build, to the
// byte, whatever its title was then.
func TestMergedEditionIsThatOfABuild(t *testing.T) {
	unraced(t)
	first, second := islets(t)
	dir := t.TempDir()
	want := built(t, first, filepath.Join(dir, "whole"))
	out := filepath.Join(dir, "merged")
	parts := partsOf(t, second, out)
	code, _, log := weekband(t, append([]string{"merge", first, "--out", out}, parts...)...)
	if code != exitOK || !strings.Contains(log, "putting together from 2 parts") {
		t.Fatalf("exit code %d\n%s", code, log)
	}
	sameFiles(t, want, files(t, out))
}

// What is streamed from parts is what is streamed from normals.
func TestMergedStreamIsThatOfABuild(t *testing.T) {
	recipe := islet(t)
	dir := t.TempDir()
	whole, out := filepath.Join(dir, "whole"), filepath.Join(dir, "merged")
	if code, _, log := weekband(t, "build", recipe, "--stream", "--out", whole); code != exitOK {
		t.Fatalf("exit code %d\n%s", code, log)
	}
	parts := partsOf(t, recipe, out)
	if code, _, log := weekband(t, append([]string{"merge", recipe, "--stream", "--out", out}, parts...)...); code != exitOK {
		t.Fatalf("exit code %d\n%s", code, log)
	}
	sameFiles(t, files(t, whole), files(t, out))
}

// sealed is a part with some text replaced, which must be there, and a sum that
// is right again.
func sealed(part []byte, from, to string) []byte {
	text := part[:len(part)-sha256.Size]
	if !bytes.Contains(text, []byte(from)) {
		panic("no " + from)
	}
	text = bytes.Replace(text, []byte(from), []byte(to), 1)
	sum := sha256.Sum256(text)
	return append(text, sum[:]...)
}

// Parts that do not make an edition of the recipe are told one by one, with
// what to do, and nothing is written.
func TestPartsThatMakeNoEdition(t *testing.T) {
	recipe := islet(t)
	dir := t.TempDir()
	out := filepath.Join(dir, "vale")
	parts := partsOf(t, recipe, out)
	south, north := parts[0], parts[1]
	whole, err := os.ReadFile(north)
	if err != nil {
		t.Fatal(err)
	}
	spoilt := func(name string, text []byte) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, text, 0o644); err != nil {
			t.Fatal(err)
		}
		return path
	}
	flipped := bytes.Clone(whole)
	flipped[len(flipped)/2] ^= 1
	again := "weekband build " + recipe + " --rows "
	for name, c := range map[string]struct {
		parts []string
		want  []string
	}{
		"missing":          {[]string{south}, []string{"rows 0:1 are in no part", again + "0:1"}},
		"missing in south": {[]string{north}, []string{"rows 1:2 are in no part", again + "1:2"}},
		"twice":            {[]string{north, south, north}, []string{"rows 0:1 are in " + north + " and in " + north}},
		"no part":          {[]string{recipe, south}, []string{recipe + ": it is no part of an edition"}},
		"not there":        {[]string{filepath.Join(dir, "elsewhere.part")}, []string{"elsewhere.part"}},
		"flipped":          {[]string{spoilt("flipped.part", flipped), south}, []string{"flipped.part: it is damaged"}},
		"cut short":        {[]string{spoilt("short.part", whole[:len(whole)-40]), south}, []string{"short.part: it is damaged"}},
		"empty":            {[]string{spoilt("empty.part", nil), south}, []string{"empty.part: it is no part"}},
		"only its magic":   {[]string{spoilt("magic.part", whole[:len("weekband part 1\n")]), south}, []string{"magic.part: it is no part"}},
		"only its head":    {[]string{spoilt("head.part", whole[:bytes.LastIndex(whole[:300], []byte("\n"))]), south}, []string{"head.part: it is damaged"}},
		"rows off the grid": {[]string{spoilt("rows.part", sealed(whole, `"to":1}`, `"to":9}`)), south},
			[]string{"rows.part: it is damaged"}},
		"more rows than it has": {[]string{spoilt("more.part", sealed(whole, `"to":1}`, `"to":2}`))},
			[]string{"more.part: "}},
		"another program": {[]string{spoilt("program.part", sealed(whole, publish.ProgramName(), "weekband 0.0.9")), south},
			[]string{"program.part: it was written by weekband 0.0.9, and this is " + publish.ProgramName()}},
	} {
		code, _, log := weekband(t, append([]string{"merge", recipe, "--out", out}, c.parts...)...)
		if code != exitData {
			t.Errorf("%s: exit code %d\n%s", name, code, log)
		}
		for _, want := range c.want {
			if !strings.Contains(log, want) {
				t.Errorf("%s: want %q in\n%s", name, want, log)
			}
		}
	}
	rewrite(t, recipe, "55 °F", "56 °F")
	code, _, log := weekband(t, "merge", recipe, "--out", out, south, north)
	for _, path := range parts {
		if want := path + ": its rows were worked out from other files or settings"; code != exitData || !strings.Contains(log, want) {
			t.Errorf("exit code %d, want %q in\n%s", code, want, log)
		}
	}
	if _, err := os.Stat(out); err == nil {
		t.Errorf("%s was written", out)
	}
}

// Rows that are none are told before, or as soon as the grid is known; of more
// shares than rows some are empty, which is no error.
func TestRowsThatAreNone(t *testing.T) {
	recipe := islet(t)
	out := filepath.Join(t.TempDir(), "vale")
	for _, c := range []struct{ flag, want string }{
		{"--rows=1:3", "--rows 1:3: the grid has 2 rows; want rows within 0:2"},
		{"--rows=1:1", `--rows "1:1" names no rows`},
		{"--rows=2", `--rows "2" names no rows`},
		{"--rows=-1:1", `--rows "-1:1" names no rows`},
		{"--rows=0:99999999999", `names no rows`},
		{"--share=2/2", `--share "2/2" is none; want I/N`},
		{"--share=1:2", `--share "1:2" is none`},
		{"--share=0/0", `--share "0/0" is none`},
	} {
		if code, _, log := weekband(t, "build", recipe, "--out", out, c.flag); code != exitUsage || !strings.Contains(log, c.want) {
			t.Errorf("%s: exit code %d, want %q in\n%s", c.flag, code, c.want, log)
		}
	}
	if code, _, log := weekband(t, "build", recipe, "--out", out, "--share=0/3"); code != exitOK || !strings.Contains(log, "share 0 of 3 has none of the 2 rows") {
		t.Errorf("an empty share: exit code %d\n%s", code, log)
	}
	if left, err := filepath.Glob(out + "*"); err != nil || len(left) > 0 {
		t.Errorf("written: %v, %v", left, err)
	}
	if code, _, log := weekband(t, "build", recipe, "--rows=0:1", "--check"); code != exitUsage || !strings.Contains(log, "--check and --rows") {
		t.Errorf("exit code %d\n%s", code, log)
	}
}
