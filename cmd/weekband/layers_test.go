package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// layers lists the packages from the bottom up. A package may import only
// packages of lower layers; so data flows one way.
var layers = [][]string{
	{"grid/problem", "grid/table/plain", "grid/packed", "grid/abreast", "render/plane", "render/internal/eye"},
	{"grid", "grid/units", "grid/season", "grid/table", "grid/oracle", "regions/internal/planar", "regions/naming", "render/caution", "render/canvas"},
	{"grid/source/frame", "grid/table/sites", "grid/curve", "grid/classes", "regions/arcs", "render/carto", "render/press"},
	{"regions/ground", "render/lettering"},
	{"grid/source/asc", "grid/source/geotiff", "grid/source/netcdf", "grid/soil", "grid/crossing", "grid/spread", "regions"},
	{"regions/polygons", "grid/source", "grid/worth", "grid/shift", "grid/series", "grid/outlook", "regions/bands", "regions/places"},
	{"grid/status", "grid/calibration", "grid/agreement", "regions/zonal"},
	{"grid/regrid", "grid/surface", "grid/source/profile", "render/wording", "render/looks"},
	{"grid/weeks", "render/daychart"},
	{"regions/report", "render/lookup", "render"},
	{"regions/shifts"},
	{"render/tables", "render/calendar", "render/chart"},
	{"render/site"},
	{"cmd/weekband/internal/flock", "cmd/weekband/internal/usage", "cmd/weekband/internal/progress", "cmd/weekband/internal/licences", "cmd/weekband/internal/nearest", "cmd/weekband/internal/completion"},
	{"cmd/weekband/internal/scratch"},
	{"cmd/weekband/internal/recipe", "cmd/weekband/internal/publish", "cmd/weekband/internal/convert", "cmd/weekband/internal/demo", "cmd/weekband/internal/keep"},
	{"cmd/weekband/internal/preview", "cmd/weekband/internal/cause", "cmd/weekband/internal/manual", "cmd/weekband/internal/sidebyside"},
	{"cmd/weekband/internal/inputs"},
	{"cmd/weekband/internal/phrase", "cmd/weekband/internal/tracing", "cmd/weekband/internal/inspect"},
	{"cmd/weekband/internal/output"},
	{"cmd/weekband/internal/survey", "cmd/weekband/internal/atlas", "cmd/weekband/internal/answer"},
	{"cmd/weekband/internal/pages", "cmd/weekband/internal/comparison", "cmd/weekband/internal/verdict", "cmd/weekband/internal/skerry"},
	{"cmd/weekband", "cmd/territory"},
}

// blind lists what a package must never know: it may not import these, or
// anything below them, even though they lie lower.
var blind = map[string][]string{
	"grid/soil":        {"grid"},
	"grid/crossing":    {"grid", "grid/soil"},
	"grid/curve":       {"grid"},
	"grid/status":      {"grid", "grid/soil", "grid/source"},
	"grid/weeks":       {"regions", "render"},
	"grid/shift":       {"grid/source", "regions", "render"},
	"regions":          {"grid/source", "grid/crossing", "grid/weeks"},
	"regions/polygons": {"grid/source", "grid/crossing", "grid/weeks"},
	"regions/bands":    {"grid/source", "grid/crossing", "grid/weeks"},
	"render":           {"grid/source", "grid/soil", "grid/curve"},
	"render/chart":     {"grid/source", "grid/soil", "render"},
	"render/site":      {"grid/source", "grid/soil", "grid/curve", "render/carto"},

	"cmd/weekband/internal/inputs":     {"cmd/weekband/internal/keep", "render"},
	"cmd/weekband/internal/tracing":    {"render", "render/wording"},
	"cmd/weekband/internal/output":     {"render", "render/chart"},
	"cmd/weekband/internal/survey":     {"render", "render/site", "render/chart", "cmd/weekband/internal/tracing"},
	"cmd/weekband/internal/answer":     {"render", "grid/weeks", "cmd/weekband/internal/inputs", "cmd/weekband/internal/recipe"},
	"cmd/weekband/internal/verdict":    {"grid/weeks", "cmd/weekband/internal/inputs", "cmd/weekband/internal/recipe"},
	"cmd/weekband/internal/pages":      {"grid/source", "grid/soil", "grid/curve", "render/carto"},
	"cmd/weekband/internal/comparison": {"grid/soil", "grid/curve", "cmd/weekband/internal/survey"},

	// What draws knows no maps.
	"render/press":     {"grid", "grid/units", "grid/season", "render/caution"},
	"render/lettering": {"grid", "grid/season", "render/carto", "regions/arcs"},
	"render/looks":     {"grid", "grid/season", "render/carto", "render/press"},
	"render/daychart":  {"grid", "grid/source", "grid/soil", "grid/curve", "render/carto"},

	"render/calendar": {"grid", "grid/source", "grid/soil", "grid/curve", "render", "render/carto"},
}

type goPackage struct {
	ImportPath, Name, Dir     string
	Doc                       string // the first sentence
	Imports                   []string
	TestGoFiles, XTestGoFiles []string
}

func packages(t *testing.T) []goPackage {
	t.Helper()
	cmd := exec.Command("go", "list", "-json=ImportPath,Name,Dir,Doc,Imports,TestGoFiles,XTestGoFiles", "./...")
	cmd.Dir = filepath.Join("..", "..")
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	var list []goPackage
	dec := json.NewDecoder(bytes.NewReader(out))
	for {
		var p goPackage
		if err := dec.Decode(&p); errors.Is(err, io.EOF) {
			return list
		} else if err != nil {
			t.Fatal(err)
		}
		list = append(list, p)
	}
}

func TestImportsPointDown(t *testing.T) {
	level := map[string]int{}
	for i, names := range layers {
		for _, name := range names {
			level["weekband/"+name] = i
		}
	}
	for _, p := range packages(t) {
		mine, ok := level[p.ImportPath]
		if !ok {
			t.Errorf("%s has no layer; give it one in layers", p.ImportPath)
			continue
		}
		name := strings.TrimPrefix(p.ImportPath, "weekband/")
		for _, imp := range p.Imports {
			if theirs, ours := level[imp]; ours && theirs >= mine {
				t.Errorf("%s imports %s, which is not below it", p.ImportPath, imp)
			}
			for _, hidden := range blind[name] {
				if imp == "weekband/"+hidden {
					t.Errorf("%s imports %s, which it must never know", p.ImportPath, imp)
				}
			}
		}
	}
}

// withoutExample are packages that have nothing to show.
var withoutExample = map[string]string{
	"cmd/weekband":                     "a command; the manual has its examples",
	"cmd/territory":                    "a command",
	"cmd/weekband/internal/sidebyside": "only tests",
}

// Every package says in a few words what it takes, gives and never knows, shows
// it by an Example with its output, and stands in DEVELOPERS.md.
func TestEveryPackageTellsOfItself(t *testing.T) {
	guide, err := os.ReadFile("../../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	example := regexp.MustCompile(`(?s)\nfunc Example.*?// (Unordered o|O)utput:`)
	for _, p := range packages(t) {
		name := strings.TrimPrefix(p.ImportPath, "weekband/")
		last := name[strings.LastIndex(name, "/")+1:]
		if !strings.HasPrefix(p.Doc, "Package "+p.Name+" ") && !strings.HasPrefix(p.Doc, "Command "+last+" ") {
			t.Errorf("%s says %q of itself", name, p.Doc)
		}
		if !strings.Contains(string(guide), "`"+name+"`") && !strings.Contains(string(guide), "`"+last+"`") {
			t.Errorf("DEVELOPERS.md does not tell of %s", name)
		}
		if withoutExample[name] != "" {
			continue
		}
		shown := false
		for _, file := range append(p.TestGoFiles, p.XTestGoFiles...) {
			text, err := os.ReadFile(filepath.Join(p.Dir, file))
			if err != nil {
				t.Fatal(err)
			}
			shown = shown || example.Match(text)
		}
		if !shown {
			t.Errorf("%s has no Example with its output", name)
		}
	}
}

// sources returns the Go files under dirs that are no tests.
func sources(t *testing.T, dirs ...string) map[string]string {
	t.Helper()
	files := map[string]string{}
	for _, dir := range dirs {
		err := filepath.WalkDir(filepath.Join("..", "..", dir), func(path string, d os.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			text, err := os.ReadFile(path)
			files[filepath.ToSlash(path)] = string(text)
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if len(files) == 0 {
		t.Fatal("no source files found")
	}
	return files
}

// Only grid/units knows how Fahrenheit and Celsius convert, so that no number
// is converted twice or as a difference.
func TestOnlyUnitsConverts(t *testing.T) {
	comment := regexp.MustCompile(`(?m)//.*$`)
	factor := regexp.MustCompile(`\b1\.8\b|\b9\.?0? ?/ ?5\b|\b5\.?0? ?/ ?9\b|459\.67`)
	for path, text := range sources(t, "cmd/weekband", "grid", "regions", "render") {
		if strings.Contains(path, "grid/units/") {
			continue
		}
		if at := factor.FindString(comment.ReplaceAllString(text, "")); at != "" {
			t.Errorf("%s holds %q: conversions belong to grid/units", path, at)
		}
	}
}

// A missing value ends at the reader: past grid/source nobody asks whether a
// number is one.
func TestCoreKnowsNoNaN(t *testing.T) {
	for path, text := range sources(t, "grid", "regions/zonal", "regions/report") {
		if strings.Contains(path, "grid/source/") || strings.HasSuffix(path, "grid/grid.go") || strings.Contains(path, "grid/oracle/") {
			continue
		}
		if strings.Contains(text, "math.IsNaN") || strings.Contains(text, "math.NaN") {
			t.Errorf("%s asks for NaN: presence lives in the raster", path)
		}
	}
}
