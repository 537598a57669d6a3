package licences

import (
	"cmp"
	"flag"
	"fmt"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write licences.txt anew")

// part is something that the program is made of.
type part struct {
	name, version string
	files         []string // its licences
}

// shipped are the systems that releases are built for.
var shipped = []string{"linux", "darwin", "windows"}

// fileNames are those that licences and notices have.
var fileNames = regexp.MustCompile(`(?i)^(licen[cs]e|copying|notice)`)

// parts lists what is built into the program on any system.
func parts(t *testing.T) []part {
	t.Helper()
	found := map[string]part{
		"Apache ECharts": {"Apache ECharts", "in render/chart/assets", []string{"../../../../render/chart/assets/echarts-LICENSE.txt", "../../../../render/chart/assets/echarts-NOTICE.txt"}},
	}
	for _, system := range shipped {
		list := exec.Command("go", "list", "-deps", "-f", `{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}} {{.Dir}}{{end}}{{end}}`, "weekband/cmd/weekband")
		list.Env = append(os.Environ(), "GOOS="+system, "CGO_ENABLED=0")
		out, err := list.Output()
		if err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(string(out)) {
			w := strings.Fields(line)
			if len(w) != 3 || found[w[0]].name != "" {
				continue
			}
			p := part{name: w[0], version: w[1]}
			entries, err := os.ReadDir(w[2])
			if err != nil {
				t.Fatal(err)
			}
			for _, e := range entries {
				if fileNames.MatchString(e.Name()) && !e.IsDir() {
					p.files = append(p.files, filepath.Join(w[2], e.Name()))
				}
			}
			found[p.name] = p
		}
	}
	const ofGo = "golang.org/x/sys" // has the licence of Go itself, whose version is that of the machine
	found["Go"] = part{"Go", "standard library and runtime", found[ofGo].files}
	return slices.SortedFunc(maps.Values(found), func(a, b part) int {
		return cmp.Compare(strings.ToLower(a.name), strings.ToLower(b.name))
	})
}

// marks are words that only one licence has, in any line breaks.
var marks = []struct{ spdx, words string }{
	{"MIT", "Permission is hereby granted, free of charge, to any person obtaining a copy of this software"},
	{"BSD-3-Clause", "Neither the name"},
	{"OFL-1.1", "SIL OPEN FONT LICENSE Version 1.1"},
	{"Apache-2.0", "Apache License Version 2.0"},
	{"FTL", "The FreeType License"},
}

// namesOf returns the SPDX names of the licences in a text.
func namesOf(text string) (list []string) {
	flat := strings.Join(strings.Fields(text), " ")
	for _, m := range marks {
		if strings.Contains(flat, m.words) {
			list = append(list, m.spdx)
		}
	}
	return list
}

// made returns what licences.txt should hold.
func made(t *testing.T) string {
	t.Helper()
	var list, bodies strings.Builder
	list.WriteString("weekband is made of these parts besides its own code. Their licences follow.\n\n")
	holders := map[string][]string{}
	var order []string
	for _, p := range parts(t) {
		var names []string
		for _, file := range p.files {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			body := strings.TrimSpace(strings.ReplaceAll(string(text), "\r\n", "\n"))
			if p.name == "github.com/golang/freetype" {
				if text, err = os.ReadFile(filepath.Join(filepath.Dir(file), "licenses", "ftl.txt")); err != nil {
					t.Fatal(err)
				}
				body += "\n\n" + strings.TrimSpace(string(text))
			}
			if len(holders[body]) == 0 {
				order = append(order, body)
			}
			holders[body] = append(holders[body], p.name)
			for _, name := range namesOf(body) {
				if !slices.Contains(names, name) {
					names = append(names, name)
				}
			}
		}
		if len(names) == 0 {
			t.Errorf("%s has no licence that is known here, in %d files: read it, and add its words to marks when it may be shipped with an MIT program", p.name, len(p.files))
		}
		fmt.Fprintf(&list, "  %-40s %-42s %s\n", p.name, p.version, strings.Join(names, ", "))
	}
	rule := strings.Repeat("-", 78)
	for _, body := range order {
		fmt.Fprintf(&bodies, "\n%s\n%s\n%s\n\n%s\n", rule, strings.Join(holders[body], "\n"), rule, body)
	}
	return list.String() + bodies.String()
}

// The list is that of the modules that get into the program, with their texts;
// none has a licence that an MIT program may not be shipped with.
func TestLicencesAreThoseOfTheParts(t *testing.T) {
	want := made(t)
	if *update {
		if err := os.WriteFile("licences.txt", []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if text != want {
		t.Error("licences.txt is not what the parts say; after a change of go.mod: go test ./cmd/weekband/internal/licences -update, and read what is new")
	}
}
