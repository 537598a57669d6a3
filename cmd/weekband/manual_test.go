package main

import (
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/alecthomas/kong"

	"weekband/cmd/weekband/internal/manual"
	"weekband/grid/oracle"
)

// model is the model of the command line.
func model(t *testing.T) *kong.Application {
	t.Helper()
	parser, err := kong.New(new(commands), kong.Name("weekband"))
	if err != nil {
		t.Fatal(err)
	}
	return parser.Model
}

// pageNames are all names of the manual's pages, the overview's is "".
func pageNames(t *testing.T) []string {
	t.Helper()
	return append([]string{""}, manual.Names(model(t))...)
}

// helpText is a page as weekband help prints it.
func helpText(t *testing.T, name string) string {
	t.Helper()
	code, out, log := weekband(t, strings.Fields("help "+name)...)
	if code != exitOK || log != "" {
		t.Fatalf("help %s: exit code %d, said %q", name, code, log)
	}
	return out
}

// No line of the manual is wider than a usual terminal, and none ends in a
// space.
func TestManualFitsTheTerminal(t *testing.T) {
	for _, name := range pageNames(t) {
		for line := range strings.Lines(helpText(t, name)) {
			line = strings.TrimSuffix(line, "\n")
			if n := utf8.RuneCountInString(line); n > 80 || strings.TrimRight(line, " ") != line || strings.Contains(line, "\u00a0") {
				t.Errorf("help %s has a line of %d columns: %q", name, n, line)
			}
		}
	}
}

// Every argument and option is told on the page of its command, with what a
// shell may complete; every page has its exit codes, where to go on, and an
// example with the command; and --help is the same page.
func TestManualTellsEveryOption(t *testing.T) {
	app := model(t)
	for _, node := range app.Children {
		if node.Hidden {
			continue
		}
		text := helpText(t, node.Name)
		for _, flags := range node.AllFlags(false) {
			for _, f := range flags {
				if f.Help == "" || !regexp.MustCompile(`(?m)^  (-\w, )?--`+f.Name+`\b`).MatchString(text) {
					t.Errorf("help %s does not tell --%s", node.Name, f.Name)
				}
				if !f.IsBool() && (f.Tag.Get("complete") == "" || f.PlaceHolder == "") {
					t.Errorf("--%s of %s has no tag complete or placeholder", f.Name, node.Name)
				}
			}
		}
		for _, arg := range node.Positional {
			if arg.Tag.Get("complete") == "" || !strings.Contains(text, "\n  "+strings.ToUpper(arg.Name)) {
				t.Errorf("help %s does not tell the argument %s, or it has no tag complete", node.Name, arg.Name)
			}
		}
		for _, part := range []string{"weekband " + node.Name, "\nExit codes\n  0 ", "\nExamples\n", "\nSee also\n"} {
			if !strings.Contains(text, part) {
				t.Errorf("help %s lacks %q", node.Name, part)
			}
		}
		if !strings.Contains(strings.Join(manual.Command(node).Examples(), "\n"), "weekband "+node.Name) {
			t.Errorf("help %s has no example of it", node.Name)
		}
		if _, same, _ := weekband(t, node.Name, "--help"); same != text {
			t.Errorf("%s --help differs from help %s", node.Name, node.Name)
		}
	}
	for _, args := range [][]string{{}, {"--help"}, {"-h"}} {
		if code, out, _ := weekband(t, args...); code != exitOK || out != helpText(t, "") {
			t.Errorf("%q does not print the overview", args)
		}
	}
}

// What the manual says of commands are commands, and their options theirs.
func TestManualNamesWhatThereIs(t *testing.T) {
	app := model(t)
	flags := map[string]bool{}
	for _, node := range app.Children {
		for _, f := range slices.Concat(node.AllFlags(false)...) {
			flags["--"+f.Name] = true
		}
	}
	names := append(manual.Names(app), "COMMAND", "TOPIC", "--man")
	shown := regexp.MustCompile("(?m)(?:`|^ {6})weekband (?:-q )?(?:help )?([-a-zA-Z]+)")
	for _, page := range pageNames(t) {
		text := helpText(t, page)
		for _, m := range shown.FindAllStringSubmatch(text, -1) {
			if !slices.Contains(names, m[1]) {
				t.Errorf("help %s shows weekband %s", page, m[1])
			}
		}
		for _, f := range regexp.MustCompile(`(^|[\s(])(--[a-z-]+)`).FindAllStringSubmatch(text, -1) {
			if !flags[f[2]] {
				t.Errorf("help %s tells of %s, which no command has", page, f[2])
			}
		}
	}
}

// Command lines that are wrong are told what is, with the nearest that is
// right, and end with 2.
func TestMistypedCommandLines(t *testing.T) {
	for line, want := range map[string]string{
		"lokup":                          `there is no command "lokup"; did you mean "lookup"?`,
		"BUILD":                          `did you mean "build"?`,
		"xyzzy":                          `there is no command "xyzzy"; weekband help lists them`,
		"recipe":                         `weekband help recipe tells of it`,
		"lokup --help":                   `did you mean "lookup"?`,
		"--quite":                        "weekband has no option --quite; did you mean --quiet?",
		"--quiet":                        "no command; weekband help lists them",
		"complet":                        `did you mean "completion"?`,
		"build --strem x.yaml":           "build has no option --strem; did you mean --stream?",
		"build --nonsense x.yaml":        "build has no option --nonsense\n",
		"build -j x.yaml":                "build has no option -j\n",
		"build":                          "build lacks RECIPE: YAML file that describes the run\nUsage: weekband build RECIPE [OPTIONS]\nTry weekband build --help.\n",
		"lookup out":                     "lookup lacks PLACE: name or code of a place",
		"merge x.yaml":                   "merge lacks PART: files that",
		"inspect":                        "inspect lacks FILE: a data set",
		"compare":                        "compare lacks OLDER: folder of a built edition",
		"build x.yaml y.yaml":            `"y.yaml" is more than build takes`,
		"build x.yaml --rows":            "--rows lacks its value, FROM:TO",
		"build x --rows=1:2 --check":     "--check and --rows do not go together",
		"preview out --port eighty":      `--port "eighty": want a whole number`,
		"help bild":                      `there is no command or topic "bild"; did you mean "build"?`,
		"help nonsense":                  "weekband help lists them",
		"help build merge":               `one command or topic at a time; "merge" is more`,
		"help recipe treshold":           `a recipe has no key "treshold"; did you mean "threshold"?`,
		"help recipe windows.tresholds":  `did you mean "windows.threshold"?`,
		"help recipe zzzzz":              "weekband help recipe lists them",
		"help build --man x":             "--man writes all of the manual",
		"completion zhs":                 `did you mean "zsh"?`,
		"completion tcsh":                "tcsh",
		"complete":                       "complete lacks SHELL",
		"lookup out -33.1,20":            "lookup has no option -3; -- goes before an argument that begins with -",
		"demo --out":                     "--out lacks its value, DIR",
		"lookup out x --reading":         "--reading lacks its value, DAY=TEMPERATURE",
		"build x.yaml --hepl":            "build has no option --hepl; did you mean --help?",
		"verify out readings.csv --json": "readings.csv",
	} {
		wantCode := exitUsage
		if strings.HasPrefix(line, "verify") {
			wantCode = exitData // nothing is wrong with the line: the folder is not there
			want = "out"
		}
		if code, out, log := weekband(t, strings.Fields(line)...); code != wantCode || !strings.Contains(log, want) || out != "" {
			t.Errorf("weekband %s: exit code %d, printed %q, said %q; want %d and %q", line, code, out, log, wantCode, want)
		}
	}
}

// Help of keys is what it says: a part of a path finds all that have it.
func TestHelpOfKeys(t *testing.T) {
	for line, want := range map[string][]string{
		"soil.depth":          {"soil.depth"},
		"threshold":           {"windows[].threshold"},
		"windows[].q10":       {"windows[].q10"},
		"windows.second":      {"windows[].second", "windows[].second.below", "windows[].second.until"},
		"palette cell":        {"palette", "grid.cell"},
		"earlier":             {"earlier[].edition", "earlier[].published", "earlier[].address"},
		"published insets.id": nil,
	} {
		code, out, _ := weekband(t, append([]string{"help", "recipe"}, strings.Fields(line)...)...)
		var got []string
		for _, m := range regexp.MustCompile(`(?m)^  ([a-z][^ ]*)$`).FindAllStringSubmatch(out, -1) {
			got = append(got, m[1])
		}
		if !slices.Equal(got, want) || (code == exitOK) != (want != nil) {
			t.Errorf("help recipe %s: exit code %d, %q, want %q", line, code, got, want)
		}
	}
}

// Man pages are written without a mistake of form, by mandoc's own check.
func TestManPages(t *testing.T) {
	dir := t.TempDir()
	if code, _, log := weekband(t, "help", "--man", dir); code != exitOK {
		t.Fatalf("exit code %d, said %q", code, log)
	}
	files, err := filepath.Glob(filepath.Join(dir, "man?", "weekband*"))
	if err != nil || len(files) != len(pageNames(t)) {
		t.Fatalf("%d man pages, %v; want %d", len(files), err, len(pageNames(t)))
	}
	oracle.Need(t, "mandoc")
	lint, _ := exec.Command("mandoc", append([]string{"-Tlint"}, files...)...).CombinedOutput()
	for line := range strings.Lines(string(lint)) {
		if !strings.Contains(line, "missing date") { // pages do not know the day
			t.Error(line)
		}
	}
	text := string(oracle.Run(t, nil, "mandoc", "-Tutf8", filepath.Join(dir, "man1", "weekband-build.1")))
	for _, want := range []string{"build the edition that a recipe describes", "--rows FROM:TO", "weekband build merrow/recipe.yaml --share 0/2"} {
		if plain := regexp.MustCompile(`.\x08`).ReplaceAllString(text, ""); !strings.Contains(plain, want) {
			t.Errorf("the man page of build lacks %q", want)
		}
	}
}
