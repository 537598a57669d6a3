package table_test

import (
	"strings"
	"testing"

	"weekband/grid/table"
)

func TestNumber(t *testing.T) {
	air := table.Number{Low: -90, High: 60.5, Unit: "°C", Hint: "is it °F?"}
	month := table.Number{Low: 1, High: 12, Whole: true}
	rank := table.Number{Low: 0, High: 1e9, Whole: true, Optional: true}
	for name, c := range map[string]struct {
		text string
		want table.Number
		v    float64
		ok   bool
		err  string // after "t.csv:2: "
	}{
		"plain":           {" 12.5 ", air, 12.5, true, ""},
		"least":           {"-90", air, -90, true, ""},
		"most":            {"60.5", air, 60.5, true, ""},
		"too low":         {"-9999", air, 0, false, "v -9999 is outside -90 to 60.5 °C; is it °F?"},
		"too large":       {"1e999", air, 0, false, "v 1e999 is outside -90 to 60.5 °C; is it °F?"},
		"word":            {"warm", air, 0, false, `v "warm" is not a number; want one from -90 to 60.5 °C; is it °F?`},
		"NaN":             {"NaN", air, 0, false, "v NaN is outside -90 to 60.5 °C; is it °F?"},
		"decimal comma":   {`"12,5"`, air, 0, false, `v "12,5" is not a number; want one from -90 to 60.5 °C; write a decimal point, or separate all columns by semicolons`},
		"empty":           {"", air, 0, false, `v "" is not a number; want one from -90 to 60.5 °C; is it °F?`},
		"month":           {"12", month, 12, true, ""},
		"whole":           {"3.0", month, 3, true, ""},
		"half":            {"3.5", month, 0, false, "v 3.5 is not a whole number; want one from 1 to 12"},
		"month 13":        {"13", month, 0, false, "v 13 is outside 1 to 12"},
		"May":             {"May", month, 0, false, `v "May" is not a number; want a whole one from 1 to 12`},
		"optional":        {" ", rank, 0, false, ""},
		"optional, wrong": {"-1", rank, 0, false, "v -1 is outside 0 to 1000000000"},
		"long":            {strings.Repeat("9x", 50), month, 0, false, `v "` + strings.Repeat("9x", 40) + `…" is not a number; want a whole one from 1 to 12`},
	} {
		in, wrong := open(t, "id,v\nA,"+c.text+"\n", table.Form{})
		in.Next()
		v, ok := in.Number(in.Find("v"), c.want)
		got := ""
		if err := wrong.Err(); err != nil {
			got = strings.TrimPrefix(err.Error(), "t.csv:2: ")
		}
		if v != c.v || ok != c.ok || got != c.err {
			t.Errorf("%s: %v, %v, %q; want %v, %v, %q", name, v, ok, got, c.v, c.ok, c.err)
		}
	}
}

func TestNumberOfNoColumn(t *testing.T) {
	in, wrong := open(t, "id\nA\n", table.Form{})
	in.Next()
	if v, ok := in.Number(in.Find("v"), table.Number{Low: 1, High: 2}); v != 0 || ok || wrong.Err() != nil {
		t.Errorf("%v, %v, %v", v, ok, wrong.Err())
	}
}

func TestKey(t *testing.T) {
	in, wrong := open(t, "id,v\nA,1\n,1\n A ,2\nB,3\nA,4\n", table.Form{})
	keys := ""
	for in.Next() {
		if key, ok := in.Key(in.Find("id")); ok {
			keys += key
		}
	}
	want := "t.csv:3: the id is empty; want one of its own for every row\n" +
		"t.csv:4: id \"A\" is already on line 2; want it once\n" +
		"t.csv:6: id \"A\" is already on line 2; want it once"
	if err := wrong.Err(); keys != "AB" || err == nil || err.Error() != want {
		t.Errorf("%s, %v; want AB, %s", keys, err, want)
	}
}
