package table_test

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"
	"testing/iotest"

	"weekband/grid/table"
)

func text(name, s string) table.Text { return table.Text{Reader: strings.NewReader(s), Name: name} }

// open opens a table that can be opened.
func open(t *testing.T, s string, form table.Form) (*table.Table, *table.Mistakes) {
	t.Helper()
	wrong := new(table.Mistakes)
	in, err := table.Open(text("t.csv", s), form, wrong)
	if err != nil {
		t.Fatal(err)
	}
	return in, wrong
}

func TestColumnsAreFoundByName(t *testing.T) {
	in, wrong := open(t, "\ufeff# made by hand\n\n Lon ,NAME,,\n-50, Lowen ,a,b\n# a remark\n-51,Fennay,c,d\n", table.Form{Need: []string{"name", "lon"}, Remarks: true})
	name, lon := in.Find("name"), in.Find("lon")
	var got []string
	for in.Next() {
		v, ok := in.Number(lon, table.Number{Low: -180, High: 180})
		got = append(got, fmt.Sprint(in.Place(), in.Text(name), v, ok, in.Find("lat"), in.Find(""), in.Text(in.Find("lat"))))
	}
	if want := []string{"t.csv:4Lowen-50 true 0 0", "t.csv:6Fennay-51 true 0 0"}; !slices.Equal(got, want) || wrong.Err() != nil {
		t.Errorf("%q, %v; want %q", got, wrong.Err(), want)
	}
	var names []string
	for c, name := range in.Columns() {
		names = append(names, fmt.Sprint(int(c), name))
	}
	if want := []string{"1lon", "2name", "3", "4"}; !slices.Equal(names, want) {
		t.Errorf("columns %q, want %q", names, want)
	}
}

func TestOpenRefuses(t *testing.T) {
	form := table.Form{Need: []string{"id", "lat"}, Want: "id,name,lat"}
	for name, c := range map[string]struct{ text, want string }{
		"empty":        {"", "t.csv: the file is empty; want a first line with id,name,lat"},
		"only a mark":  {"\ufeff", "t.csv: the file is empty; want a first line with id,name,lat"},
		"no column":    {"\nid,latitude\n", `t.csv:2: no column "lat"; the first line is "id,latitude", want id,name,lat`},
		"a column two": {"id,lat, LAT\n", `t.csv:1: two columns are named "lat"; the first line is "id,lat,lat", want id,name,lat`},
		"open quote":   {"\"id,lat\nA,1\n", `t.csv:1: extraneous or missing " in quoted-field (found on line 2); want quotes in pairs, and doubled inside a quoted field`},
		"no table":     {strings.Repeat("x", 1e6), `t.csv:1: no column "id"; the first line is "` + strings.Repeat("x", 400) + `…", want id,name,lat`},
	} {
		if in, err := table.Open(text("t.csv", c.text), form, new(table.Mistakes)); in != nil || err == nil || err.Error() != c.want {
			t.Errorf("%s: %v, %v; want %s", name, in, err, c.want)
		}
	}
	cause := errors.New("the disk is gone")
	if _, err := table.Open(table.Text{Reader: iotest.ErrReader(cause), Name: "t.csv"}, form, new(table.Mistakes)); !errors.Is(err, cause) {
		t.Errorf("%v, want %v", err, cause)
	}
}

// The examples of RFC 4180, section 2, rules 1 to 7.
func TestQuoting(t *testing.T) {
	for text, want := range map[string][]string{
		"aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n":                              {"2 zzz|yyy|xxx"},
		"aaa,bbb,ccc\r\nzzz,yyy,xxx":                                  {"2 zzz|yyy|xxx"},
		"aaa,bbb,ccc\n\"aaa\",\"bbb\",\"ccc\"\r\n":                    {"2 aaa|bbb|ccc"},
		"aaa,bbb,ccc\n\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx\r\n": {"2 aaa|b\nbb|ccc", "4 zzz|yyy|xxx"},
		"aaa,bbb,ccc\n\"aaa\",\"b\"\"bb\",\"ccc\"":                    {`2 aaa|b"bb|ccc`},
	} {
		in, wrong := open(t, text, table.Form{Need: []string{"aaa", "bbb", "ccc"}})
		var got []string
		for in.Next() {
			got = append(got, fmt.Sprintf("%d %s|%s|%s", in.Line(), in.Text(1), in.Text(2), in.Text(3)))
		}
		if !slices.Equal(got, want) || wrong.Err() != nil {
			t.Errorf("%q: %q, %v; want %q", text, got, wrong.Err(), want)
		}
	}
}

// A bad row does not hide those after it.
func TestBadRowsArePassedOver(t *testing.T) {
	in, wrong := open(t, "id,v\nA,1\nB\nC,\"a\" b\nD,1,2\nE,2\nF,\"3\n", table.Form{Need: []string{"id"}})
	var ids string
	for in.Next() {
		ids += in.Text(in.Find("id"))
	}
	const end = "; want quotes in pairs, and doubled inside a quoted field"
	want := "t.csv:3: wrong number of fields: 1; want 2 as in the first line\n" +
		`t.csv:4: extraneous or missing " in quoted-field` + end + "\n" +
		"t.csv:5: wrong number of fields: 3; want 2 as in the first line\n" +
		`t.csv:7: extraneous or missing " in quoted-field`
	if err := wrong.Err(); ids != "AE" || err == nil || !strings.HasPrefix(err.Error(), want) {
		t.Errorf("rows %s, mistakes\n%v\nwant\n%s", ids, err, want)
	}
	if in.Text(1) != "" {
		t.Errorf("there is a field %q after the end", in.Text(1))
	}
}

func TestLoose(t *testing.T) {
	in, wrong := open(t, "name,lat,code\nLowen\n \"Saint Aldwyn, Upper\", 39,M1,more\n", table.Form{Loose: true})
	var got []string
	for in.Next() {
		got = append(got, in.Text(1)+"|"+in.Text(2)+"|"+in.Text(3))
	}
	if want := []string{"Lowen||", "Saint Aldwyn, Upper|39|M1"}; !slices.Equal(got, want) || wrong.Err() != nil {
		t.Errorf("%q, %v; want %q", got, wrong.Err(), want)
	}
}

func Example() {
	sites := table.Text{Reader: strings.NewReader("id,lat\nM1,38.5\nM2,385\n"), Name: "sites.csv"}
	var wrong table.Mistakes
	t, err := table.Open(sites, table.Form{Need: []string{"id", "lat"}}, &wrong)
	if err != nil {
		fmt.Println(err)
		return
	}
	id, lat := t.Find("id"), t.Find("lat")
	for t.Next() {
		if v, ok := t.Number(lat, table.Number{Low: -90, High: 90, Unit: "degrees"}); ok {
			fmt.Println(t.Text(id), v)
		}
	}
	fmt.Println(wrong.Err())
	// Output:
	// M1 38.5
	// sites.csv:3: lat 385 is outside -90 to 90 degrees
}

func FuzzTable(f *testing.F) {
	f.Add("id,v\nA,1\nB,\n", false)
	f.Add("\ufeffid, V \r\n\"A\n\",0x1p4\r\n#,1e999\n", true)
	f.Add("id,v\nA\nA,NaN\n\"\"\"", false)
	f.Add("id;v\rA;1,5\rB;1.5\r", true)
	f.Add("\xff\xfei\x00d\x00\t\x00v\x00\n\x00", false)
	f.Fuzz(func(t *testing.T, s string, loose bool) {
		var wrong table.Mistakes
		form := table.Form{Need: []string{"id", "v"}, Loose: loose}
		in, err := table.Open(text("f.csv", s), form, &wrong)
		if err != nil {
			if !strings.HasPrefix(err.Error(), "f.csv:") {
				t.Errorf("no place: %v", err)
			}
			return
		}
		rows, line := 0, 0
		seen := map[string]bool{}
		for in.Next() {
			if rows++; in.Line() <= line {
				t.Fatalf("line %d after %d", in.Line(), line)
			}
			line = in.Line()
			if v, ok := in.Number(in.Find("v"), table.Number{Low: -3, High: 40}); ok && !(v >= -3 && v <= 40) || !ok && v != 0 {
				t.Errorf("read %v, %v", v, ok)
			}
			if key, ok := in.Key(in.Find("id")); ok && (key == "" || seen[key]) {
				t.Errorf("key %q again", key)
			} else {
				seen[key] = true
			}
		}
		if err := wrong.Err(); err != nil {
			for i, m := range strings.Split(err.Error(), "\n") {
				if i > 21 || i < 20 && !strings.HasPrefix(strings.TrimPrefix(m, "note: "), "f.csv:") {
					t.Errorf("mistake %d is %q", i, m)
				}
			}
			return
		}
		if wrong.Notes() != nil {
			return // no CSV by the letter
		}
		plain := csv.NewReader(strings.NewReader(s))
		if loose {
			plain.FieldsPerRecord, plain.TrimLeadingSpace = -1, true
		}
		if all, err := plain.ReadAll(); err != nil || len(all) != rows+1 {
			t.Errorf("%d rows without a mistake; all at once: %d, %v", rows, len(all)-1, err)
		}
	})
}

// A file that breaks off says so, even after more mistakes than are shown.
func TestFileThatBreaksOff(t *testing.T) {
	cause := errors.New("unexpected end of gzip")
	bad := "v\n" + strings.Repeat("x\n", 30)
	var wrong table.Mistakes
	in, err := table.Open(table.Text{Reader: io.MultiReader(strings.NewReader(bad), iotest.ErrReader(cause)), Name: "t.csv"}, table.Form{}, &wrong)
	if err != nil {
		t.Fatal(err)
	}
	for in.Next() {
		in.Number(in.Find("v"), table.Number{})
	}
	lines := strings.Split(wrong.Err().Error(), "\n")
	if len(lines) != 21 || lines[19] != "t.csv: after line 31: unexpected end of gzip" || lines[20] != "and 11 more" || !errors.Is(wrong.Err(), cause) {
		t.Errorf("%d lines:\n%v", len(lines), wrong.Err())
	}
}
