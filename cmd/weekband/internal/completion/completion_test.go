package completion_test

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/alecthomas/kong"

	"weekband/cmd/weekband/internal/completion"
	"weekband/grid/oracle"
)

// line is a command line with a value of every kind.
type line struct {
	Build struct {
		Recipe string   `arg:"" complete:"files .yaml .yml"`
		Out    string   `help:"Folder to write. Default: none." placeholder:"DIR" complete:"folders off"`
		Rows   string   `placeholder:"FROM:TO" complete:"nothing"`
		Ids    []string `placeholder:"A,B" complete:"windows"`
		Check  bool
	} `cmd:"" help:"Build."`
	Lookup struct {
		Edition string   `arg:"" complete:"folders"`
		Place   string   `arg:"" complete:"places"`
		More    []string `arg:"" optional:"" complete:"words early late"`
	} `cmd:"" help:"Look up."`
	Ask   struct{} `cmd:"" hidden:""`
	Quiet bool     `short:"q"`
}

func ask(kind string, in completion.Line, typed string) []completion.Word {
	switch kind {
	case "windows":
		return []completion.Word{{Text: "spring"}, {Text: "summer"}}
	case "places":
		return []completion.Word{{Text: "Lowen Strand", About: "in " + in.Args[0]}, {Text: "Ternholm"}}
	}
	panic(kind)
}

func ExampleComplete() {
	app := kong.Must(new(line), kong.Name("weekband")).Model
	answer := completion.Complete(app, []string{"lookup", "out/vale", "lo"}, ask)
	answer.Write(os.Stdout, "bash")
	// Output:
	// words
	// lo
	// Lowen Strand	in out/vale
}

func TestComplete(t *testing.T) {
	app := kong.Must(new(line), kong.Name("weekband")).Model
	for typed, want := range map[string]string{
		"|":                                "words: build lookup",
		"|b":                               "words: build",
		"|B":                               "words: build",
		"|a":                               "words:",
		"|-":                               "words: --help --quiet",
		"-q|l":                             "words: lookup",
		"nonsense|":                        "words:",
		"build|":                           "files .yaml .yml:",
		"build|--":                         "words: --out --rows --ids --check --help --quiet",
		"build|--check|--c":                "words:",
		"build|--ids|spring|--i":           "words: --ids",
		"build|--out|":                     "folders: off",
		"build|--out|x":                    "folders:",
		"build|--out=":                     "folders: off",
		"build|--check=":                   "words:",
		"build|--wrong=":                   "words:",
		"build|--wrong|":                   "words:",
		"build|--rows|":                    "words:",
		"build|--rows|1:2|":                "files .yaml .yml:",
		"build|--rows=1:2|":                "files .yaml .yml:",
		"build|x.yaml|":                    "words: --out --rows --ids --check --help --quiet",
		"build|x.yaml|--|":                 "words:",
		"build|--|-":                       "files .yaml .yml:",
		"build|--ids|s":                    "words: spring summer",
		"build|--ids|spring,":              "words: spring,summer",
		"build|--ids=spring,su":            "words: spring,summer",
		"lookup|":                          "folders:",
		"lookup|out|":                      "words: Lowen Strand Ternholm",
		"lookup|out|t":                     "words: Ternholm",
		"lookup|out|Ternholm|":             "words: early late",
		"lookup|out|Ternholm|early|late|l": "words: late",
	} {
		answer := completion.Complete(app, strings.Split(strings.TrimPrefix(typed, "|"), "|"), ask)
		got := answer.Kind + ":"
		for _, w := range answer.Words {
			got += " " + w.Text
		}
		if got != want {
			t.Errorf("%s: %q, want %q", typed, got, want)
		}
	}
}

// Fish completes whole words, other shells what follows the option.
func TestOptionBeforeItsValue(t *testing.T) {
	app := kong.Must(new(line), kong.Name("weekband")).Model
	answer := completion.Complete(app, []string{"build", "--out=o"}, ask)
	for shell, want := range map[string]string{"bash": "folders\no\noff\t\n", "zsh": "folders\no\noff\t\n", "fish": "folders\no\n--out=off\t\n"} {
		var b strings.Builder
		if err := answer.Write(&b, shell); err != nil || b.String() != want {
			t.Errorf("%s: %q, %v", shell, b.String(), err)
		}
	}
}

// What a word is about is cut at the end of a clause and to some columns, and
// nothing in it breaks the lines of an answer.
func TestAnswersAreLines(t *testing.T) {
	a := completion.Answer{Kind: "words", Words: []completion.Word{
		{"a\nb", "first. Second."}, {"c", strings.Repeat("word ", 20)}, {"d", "map.png is\tone"},
	}}
	var b strings.Builder
	if err := a.Write(&b, "bash"); err != nil {
		t.Fatal(err)
	}
	want := "words\n\na b\tfirst\nc\t" + strings.Repeat("word ", 12)[:59] + " …\nd\tmap.png is one\n"
	if b.String() != want {
		t.Errorf("%q, want %q", b.String(), want)
	}
}

// Words are what the shell makes of a line.
func TestSplitAsTheShellDoes(t *testing.T) {
	lines := []string{
		`weekband build x.yaml`, `a  b	c`, `a "b c" 'd "e"'`, `a b\ c "d\"e\\f\g"`, `a'b'"c"\d`, `'' "" x`, `a "b'c" 'd\e'`, `ä "ö ü"`,
	}
	for _, line := range lines {
		out := oracle.Run(t, nil, "sh", "-c", `for word in `+line+`; do printf '%s\n' "$word"; done`)
		want := strings.Split(strings.TrimSuffix(string(out), "\n"), "\n")
		if got := completion.Split(line); !slices.Equal(got, want) {
			t.Errorf("%s: %q, the shell says %q", line, got, want)
		}
	}
	for line, want := range map[string][]string{
		"": {""}, "a ": {"a", ""}, `a "b c`: {"a", "b c"}, `a 'b `: {"a", "b "}, `a b\ `: {"a", "b "}, `a \`: {"a", ""}, `a "`: {"a", ""},
	} {
		if got := completion.Split(line); !slices.Equal(got, want) {
			t.Errorf("%q: %q, want %q", line, got, want)
		}
	}
}

func TestScripts(t *testing.T) {
	for _, shell := range completion.Shells {
		if !strings.Contains(completion.Script(shell), fmt.Sprintf("complete %s --", shell)) {
			t.Errorf("the script of %s does not ask the program", shell)
		}
	}
	if completion.Script("csh") != "" || completion.Script("../doc") != "" {
		t.Error("there is a script of no shell")
	}
}
