package table_test

import (
	"fmt"
	"io"
	"runtime"
	"strings"
	"testing"

	"golang.org/x/text/encoding/unicode"

	"weekband/grid/table"
)

var towns = table.Form{Need: []string{"name", "lat"}}

var north = table.Number{Low: -90, High: 90, Unit: "degrees"}

// readTowns returns the names and latitudes of a table.
func readTowns(t *testing.T, s string) (string, *table.Mistakes) {
	t.Helper()
	in, wrong := open(t, s, towns)
	got := ""
	for in.Next() {
		v, ok := in.Number(in.Find("lat"), north)
		got += fmt.Sprint(in.Line(), in.Text(in.Find("name")), v, ok, " ")
	}
	return got, wrong
}

// A table that can be meant in one way only is read, and the note says how.
func TestRepairs(t *testing.T) {
	wide, err := unicode.UTF16(unicode.LittleEndian, unicode.UseBOM).NewEncoder().String("name,lat\nLowen,39.5\nFennéy,40\n")
	if err != nil {
		t.Fatal(err)
	}
	const want = "2Lowen39.5 true 3Fennéy40 true "
	for text, note := range map[string]string{
		"name,lat\nLowen,39.5\nFennéy,40\n":         "",
		"\ufeffname,lat\nLowen,39.5\nFennéy,40\n":   "left out the byte order mark at its beginning",
		"name,lat\r\nLowen,39.5\r\nFennéy,40\r\n":   "took CR LF for the ends of lines",
		"name,lat\rLowen,39.5\rFennéy,40":           "took CR for the ends of lines",
		wide:                                        "read it as UTF-16, as its byte order mark says",
		"name\tlat\nLowen\t39.5\nFennéy\t40\n":      "took tabs for the separators of columns",
		"name;lat\nLowen;39.5\nFennéy;40\n":         "took semicolons for the separators of columns",
		"name;lat\nLowen;39,5\nFennéy;40,0\n":       `took semicolons for the separators of columns; read decimal commas as points, 2 of them, the first in "39,5" on line 2`,
		"name;lat;a,b\nLowen;39.5;x\nFennéy;40;y\n": "took semicolons for the separators of columns",
		"name,lat,a;b\nLowen,39.5,x\nFennéy,40,y\n": "",
	} {
		got, wrong := readTowns(t, text)
		if note != "" {
			note = "t.csv: " + note
		}
		if notes := strings.Join(wrong.Notes(), "|"); got != want || notes != note || wrong.Err() != nil {
			t.Errorf("%q: %q, %q, %v; want %q, %q", text, got, notes, wrong.Err(), want, note)
		}
	}
}

// What could be meant in two ways is refused.
func TestAmbiguousTables(t *testing.T) {
	for text, want := range map[string]string{
		"name;lat\nLowen;39,5\nFennay;40.5\n":     `t.csv:3: lat "40.5": "39,5" on line 2 is written the other way; want decimal commas or decimal points in the whole table`,
		"name;lat\nLowen;39.5\nFennay;40,5\n":     `t.csv:3: lat "40,5": "39.5" on line 2 is written the other way`,
		"name;lat\nLowen;1,239,5\n":               `t.csv:2: lat "1,239,5" is not a number`,
		"name;lat\nLowen;1.239,5\n":               `t.csv:2: lat "1.239,5" is not a number`,
		"name,lat\nLowen,\"39,5\"\n":              `t.csv:2: lat "39,5" is not a number; want one from -90 to 90 degrees; write a decimal point, or separate all columns by semicolons`,
		"name\tlat\nLowen\t39,5\n":                `t.csv:2: lat "39,5" is not a number`,
		"name,lat\nLowen,39,5\n":                  "t.csv:2: wrong number of fields: 3; want 2",
		"name,lat\nLow\xe9n,39\n":                 "t.csv:2:4: the byte 0xe9 is not UTF-8",
		"name,lat\nLowen,39\x00\n":                "t.csv:2:9: a NUL byte",
		"name,lat\n\"" + strings.Repeat("x", 2e6): "t.csv: after line 1: the next row has more than 1 MB; want shorter rows: is a quote left open?",
	} {
		_, wrong := readTowns(t, text)
		if err := wrong.Err(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%.60q: %v; want %s", text, err, want)
		}
	}
}

func TestTooManyRows(t *testing.T) {
	wrong := new(table.Mistakes)
	in, err := table.Open(text("t.csv", "name,lat\n"+strings.Repeat("A,1\n", 11)), table.Form{Need: towns.Need, Rows: 10}, wrong)
	if err != nil {
		t.Fatal(err)
	}
	rows := 0
	for in.Next() {
		rows++
	}
	if err := wrong.Err(); rows != 10 || err == nil || err.Error() != "t.csv: more than 10 rows; want fewer, in several tables" {
		t.Errorf("%d rows, %v", rows, err)
	}
}

// endless gives one byte for ever.
type endless byte

func (e endless) Read(b []byte) (int, error) {
	for i := range b {
		b[i] = byte(e)
	}
	return len(b), nil
}

// A text without an end of line takes no more memory than a row may.
func TestEndlessRow(t *testing.T) {
	for _, begin := range []string{"", "\""} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		in, err := table.Open(table.Text{Reader: io.MultiReader(strings.NewReader(begin), endless('x')), Name: "t.csv"}, towns, new(table.Mistakes))
		runtime.ReadMemStats(&after)
		if in != nil || err == nil || !strings.Contains(err.Error(), "more than 1 MB") {
			t.Errorf("%q: %v, %v", begin, in, err)
		}
		if got := after.TotalAlloc - before.TotalAlloc; got > 16<<20 {
			t.Errorf("%q: %d bytes were allocated", begin, got)
		}
	}
}
