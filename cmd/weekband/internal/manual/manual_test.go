package manual

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/recipe"

	"github.com/alecthomas/kong"
)

var update = flag.Bool("update", false, "write the tables that README.md shares with the manual")

// little is a command line of one command that has a text here.
type little struct {
	Version struct {
		Style string `help:"How it is printed." default:"plain" placeholder:"STYLE"`
	} `cmd:"" group:"About" help:"Print the version."`
	Quiet bool `short:"q" help:"Tell errors only."`
}

func littleModel() *kong.Application {
	return kong.Must(new(little), kong.Name("weekband"), kong.NoDefaultHelp()).Model
}

func ExampleCommand() {
	page := Find(littleModel(), "version")
	text, _, _ := strings.Cut(page.Plain(50), "\nExit codes")
	fmt.Print(text)
	// Output:
	// weekband version [OPTIONS]
	//
	//   Print the version.
	//
	//   It is the one that manifests of editions have.
	//
	// General options
	//   --style STYLE  How it is printed. Default:
	//                  plain.
	//   -q, --quiet    Tell errors only.
}

// A page for the terminal and the same for man, by hand.
func TestLayout(t *testing.T) {
	p := &Page{Name: "soil", Summary: "Tell of soil.", usage: "weekband soil [OPTIONS]", sections: []section{
		{blocks: []block{{text: "Soil is ground, and warmer by 10 % than `air of a day`."}}},
		{title: "Terms", blocks: []block{
			{term: "`--depth` M", text: ".5 is\nhalf"}, {term: "a term that is far too long", text: "below"}, {term: "x", text: "y"},
		}},
		{title: "Files", blocks: []block{{term: "`a.csv`", text: "table"}, {term: "b", text: "other"}}},
		{title: "Examples", blocks: []block{{text: "Two:"}, {lines: []string{"weekband soil \\", "  ~/x"}}, {lines: []string{"weekband soil 'y'"}}}},
	}}
	plain := `weekband soil
    [OPTIONS]

  Tell of soil.

  Soil is ground, and
  warmer by 10 % than
  ` + "`air of a day`" + `.

Terms
  --depth M  .5 is
             half
  a term that is far too long
             below
  x          y

Files
  a.csv
      table

  b
      other

Examples
  Two:

      weekband soil \
        ~/x

      weekband soil 'y'
`
	if got := p.Plain(25); got != plain {
		t.Errorf("plain:\n%s", got)
	}
	man := `.TH WEEKBAND-SOIL 1 "" "weekband 1" "weekband"
.SH NAME
weekband-soil \- tell of soil
.SH SYNOPSIS
weekband soil [OPTIONS]
.SH DESCRIPTION
Soil is ground, and warmer by 10 % than \fBair of a day\fR.
.SH TERMS
.TP
\fB\-\-depth M\fR
\&.5 is
.br
half
.TP
\fBa term that is far too long\fR
below
.TP
\fBx\fR
y
.SH FILES
.TP
\fBa.csv\fR
table
.TP
\fBb\fR
other
.SH EXAMPLES
Two:
.PP
.RS 4
.nf
weekband soil \e
  \(ti/x
.fi
.RE
.PP
.RS 4
.nf
weekband soil \(aqy\(aq
.fi
.RE
`
	if got := p.Man("1"); got != man {
		t.Errorf("man:\n%s", got)
	}
	if got := p.Examples(); len(got) != 2 || got[0] != "weekband soil \\\n  ~/x" {
		t.Errorf("examples %q", got)
	}
}

// Words beyond ASCII are written so that any roff prints them.
func TestRoffOfLetters(t *testing.T) {
	if got := roffed(`55 °F – "x" ^ \n`); got != `55 \[u00B0]F \[u2013] "x" \(ha \en` {
		t.Error(got)
	}
}

// Complaints of a parser that says something new are handed on.
func TestComplaintsOfUnknownWords(t *testing.T) {
	text, advice := Complaint(littleModel(), errors.New("unknown flag --quit, did you mean \"--quiet\"?"))
	if text != "weekband has no option --quit; did you mean --quiet?" || advice != "Try weekband --help.\n" {
		t.Errorf("%q, %q", text, advice)
	}
	parser := kong.Must(new(little), kong.Name("weekband"), kong.NoDefaultHelp())
	_, err := parser.Parse([]string{"version", "--style"})
	if text, advice := Complaint(parser.Model, err); text != "--style lacks its value, STYLE" || !strings.HasSuffix(advice, "Try weekband version --help.\n") {
		t.Errorf("%q, %q", text, advice)
	}
}

// Every text that is embedded is a page, or part of one.
func TestEveryTextIsUsed(t *testing.T) {
	used := map[string]bool{}
	names, err := filepath.Glob("texts/*.txt")
	if err != nil || len(names) < 10 {
		t.Fatal(names, err)
	}
	parts, err := filepath.Glob("texts/parts/*.txt")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range append(names, parts...) {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range regexp.MustCompile(`(?m)^@(\S+)$`).FindAllStringSubmatch(string(text), -1) {
			used[m[1]] = true
		}
	}
	for _, part := range parts {
		if name := strings.TrimSuffix(filepath.Base(part), ".txt"); !used[name] {
			t.Errorf("no page has the part %s", name)
		}
	}
}

// Tables that README.md shares with the manual are the same in both, to the
// word; -update writes them there.
func TestReadmeHasTheTables(t *testing.T) {
	const path = "../../../../README.md"
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	readme := string(text)
	for _, table := range []struct{ part, section string }{
		{"files-of-editions", "## What a build writes\n\n| file | for |"},
		{"files-of-compare", "`--out` writes a folder. It replaces a folder that `compare` wrote, and no other; where nothing moved it holds no maps.\n\n| file | for |"},
		{"events", "| `event` | further fields |"},
		{"codes", "| exit code | |"},
	} {
		head := table.section + "\n|---|---|\n"
		before, after, found := strings.Cut(readme, head)
		if !found {
			t.Errorf("README.md has no table under %q", table.section)
			continue
		}
		stands := regexp.MustCompile(`^(\|.*\n)*`).FindString(after)
		var rows strings.Builder
		for _, s := range parse("parts/"+table.part, nil) {
			for _, b := range s.blocks {
				fmt.Fprintf(&rows, "| %s | %s |\n", b.term, b.text)
			}
		}
		switch {
		case stands == rows.String():
		case *update:
			readme = before + head + rows.String() + after[len(stands):]
		default:
			t.Errorf("README.md's table differs from texts/parts/%s.txt, which it is made from: change that file, then go test ./cmd/weekband/internal/manual -run Readme -update", table.part)
		}
	}
	if *update {
		if err := os.WriteFile(path, []byte(readme), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// The files of every kind of map are told.
func TestFilesTellOfEveryMap(t *testing.T) {
	told := ""
	for _, s := range parse("parts/files-of-editions", nil) {
		for _, b := range s.blocks {
			told += b.term
		}
	}
	for _, m := range recipe.AllMaps {
		if !strings.Contains(told, "-"+m.String()+".png") && !strings.Contains(told, "-"+m.String()+"-<nn>.png") {
			t.Errorf("texts/parts/files-of-editions.txt lacks the map %v", m)
		}
	}
}
