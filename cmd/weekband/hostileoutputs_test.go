package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"

	"weekband/cmd/weekband/internal/answer"
	"weekband/cmd/weekband/internal/output"
	"weekband/grid/oracle"
	"weekband/regions/naming"
)

// Data files give back every name as it was, but for control characters, which
// a note tells of, as it does of letters that the fonts lack.
func TestHostileNamesComeBack(t *testing.T) {
	out, _, log := hostileEditions(t)
	for _, want := range []string{"names or ids held control characters, which were left out", "hostile.csv: ", "the fonts of pictures lack"} {
		if !strings.Contains(log, want) {
			t.Errorf("the build does not tell of %q:\n%s", want, log)
		}
	}
	if bytes.ContainsAny([]byte(log), "\x1b\x07\x00\u202e") {
		t.Error("the build writes control characters to the terminal")
	}
	text, err := os.ReadFile(filepath.Join(out, filepath.FromSlash(output.RegionsFile)))
	if err != nil {
		t.Fatal(err)
	}
	var doc struct {
		Features []struct {
			Properties struct{ Region, Name string }
		}
	}
	if err := json.Unmarshal(text, &doc); err != nil {
		t.Fatal(err)
	}
	for i, want := range wantNames() {
		if got := doc.Features[i].Properties; got.Name != want && got.Region != want {
			t.Errorf("%s has %q, want %q", output.RegionsFile, got, want)
		}
		if i == len(attacks)-1 || want == "Birkmoor" { // several have this name
			continue
		}
		code, told, log := weekband(t, "lookup", "--json", "--", out, want)
		var r answer.Reply
		if err := json.Unmarshal([]byte(told), &r); strings.ContainsFunc(want, isLetter) && (err != nil || code != exitOK) {
			t.Errorf("lookup of %q: exit code %d, %v %s", want, code, err, log)
		}
	}
}

func isLetter(r rune) bool { return r >= 'a' && r <= 'z' }

// No cell of a table is a formula for a spreadsheet, and without their
// apostrophes names are as they were.
func TestHostileNamesInTables(t *testing.T) {
	out, _, _ := hostileEditions(t)
	const starts = "=+-@\t\r\n\x00＝＋－＠" // OWASP ASVS 5.0, 1.2.10, and the forms for East Asian keyboards
	for _, row := range regionTable(t, out) {
		for column, field := range row {
			first, _ := utf8.DecodeRuneInString(field)
			if _, err := fmt.Sscanf(field, "%f", new(float64)); err != nil && field != "" && strings.ContainsRune(starts, first) {
				t.Errorf("%s begins with %q: %q", column, first, field)
			}
		}
	}
	for i, want := range wantNames() {
		got := regionTable(t, out)[i]["region"]
		if bare, cut := strings.CutPrefix(got, "'"); cut && strings.ContainsRune(starts, []rune(bare)[0]) {
			got = bare
		}
		if got = untold(got); got != want {
			t.Errorf("regions.csv has %q, want %q", got, want)
		}
	}
	raw, err := os.ReadFile(filepath.Join(out, "tables", "regions.csv"))
	if err != nil {
		t.Fatal(err)
	}
	if bare := regexp.MustCompile(`(?m)(^|,)[^",\r\n]*[;\t]`).Find(raw); bare != nil {
		t.Errorf("regions.csv has a semicolon or tab that is not quoted: %q", bare)
	}
	f, err := excelize.OpenFile(filepath.Join(out, "tables", "regions.xlsx"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for i, want := range wantNames() {
		cell := fmt.Sprintf("C%d", i+2)
		got, err := f.GetCellValue("regions", cell)
		formula, _ := f.GetCellFormula("regions", cell)
		kind, _ := f.GetCellType("regions", cell)
		if err != nil || untold(got) != want || formula != "" || kind != excelize.CellTypeSharedString {
			t.Errorf("%s is %q, formula %q, type %v (%v), want %q", cell, got, formula, kind, err, want)
		}
	}
}

// untold returns the name of one of two Birkmoors, which tables tell apart by
// their ids.
func untold(title string) string {
	if strings.HasPrefix(title, "Birkmoor (") {
		return "Birkmoor"
	}
	return title
}

// forbidden are the characters that names of files on Windows may not have.
// Source: Microsoft, Naming Files, Paths, and Namespaces.
const forbidden = `<>:"/\|?*`

// Nothing is written outside the edition, and every file has a name that all
// systems take and tell apart.
func TestHostileNamesOfFiles(t *testing.T) {
	out, twin, _ := hostileEditions(t)
	if beside, err := os.ReadDir(filepath.Dir(out)); err != nil || len(beside) != 1 {
		t.Errorf("beside the edition: %v (%v)", beside, err)
	}
	all := files(t, out)
	pages := func(all map[string][]byte) (n int) { // but for the lookup's shards, by how names begin
		for name := range all {
			if !strings.HasPrefix(name, "data/lookup/places-") {
				n++
			}
		}
		return n
	}
	if a, b := pages(all), pages(files(t, twin)); a != b {
		t.Errorf("%d files, %d with harmless names", a, b)
	}
	seen := map[string]string{}
	for name := range all {
		if other, twice := seen[strings.ToLower(name)]; twice {
			t.Errorf("%s and %s are one file where case does not count", name, other)
		}
		seen[strings.ToLower(name)] = name
		for part := range strings.SplitSeq(name, "/") {
			odd := strings.ContainsFunc(part, func(r rune) bool { return r < ' ' || r > '~' || strings.ContainsRune(forbidden, r) })
			if odd || naming.Device(part) || strings.HasSuffix(part, ".") || strings.HasSuffix(part, " ") || len(part) > 100 {
				t.Errorf("%s: not a name for every system", name)
			}
		}
	}
}

// Calendars hold no more events than those of harmless names, and each line
// begins with a property of RFC 5545 or 7986 that calendars of ours have.
func TestHostileNamesInCalendars(t *testing.T) {
	evil, twin, _ := hostileEditions(t)
	property := regexp.MustCompile(`^(BEGIN|END|VERSION|PRODID|CALSCALE|NAME|DESCRIPTION|URL|UID|DTSTAMP|DTSTART|DTEND|SUMMARY|CATEGORIES|TRANSP)[:;]`)
	events := func(dir string) (n int) {
		for name, text := range files(t, dir) {
			if !strings.HasSuffix(name, ".ics") {
				continue
			}
			for line := range strings.SplitSeq(strings.TrimSuffix(strings.ReplaceAll(string(text), "\r\n ", ""), "\r\n"), "\r\n") {
				if !property.MatchString(line) || strings.ContainsFunc(line, func(r rune) bool { return r < ' ' }) {
					t.Errorf("%s: line %q", name, line)
				}
				if line == "BEGIN:VEVENT" {
					n++
				}
			}
		}
		return n
	}
	if a, b := events(evil), events(twin); a != b || a < 50 {
		t.Errorf("%d events, %d with harmless names", a, b)
	}
}

// The handout can be read, and holds no script and no forms.
func TestHostileNamesInPDF(t *testing.T) {
	out, _, _ := hostileEditions(t)
	for _, name := range []string{"maps/spring.pdf", "maps/spring-handout.pdf"} {
		info := string(oracle.Run(t, nil, "pdfinfo", filepath.Join(out, filepath.FromSlash(name))))
		if !regexp.MustCompile(`JavaScript: +no`).MatchString(info) || !regexp.MustCompile(`Form: +none`).MatchString(info) || !strings.Contains(info, "hacked=1") {
			t.Errorf("%s: pdfinfo says\n%s", name, info)
		}
	}
}
