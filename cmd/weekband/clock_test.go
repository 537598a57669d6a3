package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// chancy lists what differs from run to run or from machine to machine with
// the same inputs: clocks, chance, the environment, who and where one is. A
// package without names is chancy as a whole.
var chancy = map[string][]string{
	"time":         {"Now", "Since", "Until", "Local", "LoadLocation", "After", "AfterFunc", "Tick", "NewTicker", "NewTimer"},
	"os":           {"Getenv", "LookupEnv", "Environ", "ExpandEnv", "Hostname", "Getpid", "Getppid", "Getuid", "Geteuid", "Getgid", "Getwd", "UserHomeDir", "UserCacheDir", "UserConfigDir"},
	"runtime":      {"NumCPU", "NumGoroutine", "ReadMemStats", "Version", "GOOS", "GOARCH"},
	"math/rand":    nil,
	"math/rand/v2": nil,
	"crypto/rand":  nil,
	"hash/maphash": nil,
	"os/user":      nil,
}

// harmless lists the files and folders that may use what is chancy, since
// nothing of it gets into an edition.
var harmless = map[string]string{
	"cmd/territory/":                  "draws from fixed seeds; what it makes is in the repository",
	"cmd/weekband/internal/convert/":  "hands its environment to the tools it runs",
	"cmd/weekband/internal/preview/":  "tells browsers when a file changed",
	"cmd/weekband/internal/publish/":  "locks and hidden names, which are gone when the edition stands",
	"cmd/weekband/internal/scratch/":  "temporary folders",
	"cmd/weekband/internal/keep/":     "when kept work was used last; what it gives is what was put",
	"cmd/weekband/internal/progress/": "the log",
	"cmd/weekband/build.go":           "where kept work lies",
	"grid/oracle/":                    "only tests import it",
}

// No clock, no chance and no environment in what a build writes, because code
// that makes it asks for none.
func TestNothingAsksTheClock(t *testing.T) {
	for path, text := range sources(t, "cmd", "grid", "regions", "render") {
		path = strings.TrimPrefix(path, "../../")
		for _, found := range chancyIn(t, path, text) {
			allowed := false
			for place := range harmless {
				allowed = allowed || strings.HasPrefix(path, place)
			}
			if !allowed {
				t.Errorf("%s, which may differ from run to run; take it from the recipe, or list the place in harmless with why it gets into no edition", found)
			}
		}
	}
}

// chancyIn returns where a file uses what is chancy.
func chancyIn(t *testing.T, path, text string) (found []string) {
	t.Helper()
	files := token.NewFileSet()
	f, err := parser.ParseFile(files, path, text, parser.SkipObjectResolution)
	if err != nil {
		t.Fatal(err)
	}
	names := map[string]string{} // of imported packages, to their paths
	for _, i := range f.Imports {
		from, err := strconv.Unquote(i.Path.Value)
		if err != nil {
			t.Fatal(err)
		}
		name := from[strings.LastIndex(from, "/")+1:]
		if i.Name != nil {
			name = i.Name.Name
		}
		names[name] = from
		if those, ok := chancy[from]; ok && those == nil {
			found = append(found, files.Position(i.Pos()).String()+": imports "+from)
		}
	}
	ast.Inspect(f, func(n ast.Node) bool {
		s, ok := n.(*ast.SelectorExpr)
		if !ok {
			return true
		}
		x, named := s.X.(*ast.Ident)
		switch {
		case s.Sel.Name == "ModTime":
			found = append(found, files.Position(s.Pos()).String()+": asks when a file changed")
		case named && slices.Contains(chancy[names[x.Name]], s.Sel.Name):
			found = append(found, files.Position(s.Pos()).String()+": uses "+x.Name+"."+s.Sel.Name)
		}
		return true
	})
	return found
}

// The search finds a clock by any name.
func TestChancyIsFound(t *testing.T) {
	const text = `package p
import (
	clock "time"
	"os"
	_ "math/rand/v2"
)
var now, zone = clock.Now(), os.Getenv("TZ")
func f(i os.FileInfo, os struct{ Open int }) any { return []any{i.ModTime(), clock.Hour, os.Open} }
`
	if got := chancyIn(t, "p.go", text); len(got) != 4 {
		t.Errorf("found %q, want four", got)
	}
}
