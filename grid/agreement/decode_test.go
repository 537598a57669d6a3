package agreement_test

import (
	"math"
	"strings"
	"testing"

	"weekband/grid/agreement"
	"weekband/grid/table"
)

func decode(text string) ([]agreement.Log, error) {
	logs, _, err := agreement.Decode(table.Text{Reader: strings.NewReader(text), Name: "r.csv"})
	return logs, err
}

func TestDecode(t *testing.T) {
	logs, err := decode("\uFEFFPlace,lat,lon,date,soil,depth\n" +
		"Fenmark,36.5,-45.25,2026-03-08,50 F,4 in\nFenmark,36.5,-45.25,2026-03-01,41F,4 in\nFenmark,36.5,-45.25,2026-03-01,9 °C,2 in\n,37,315,2026-03-01,11.5C,\n")
	if err != nil || len(logs) != 3 {
		t.Fatalf("%d logs, %v", len(logs), err)
	}
	if logs[0].Name != "" || logs[0].At.Lon != -45 || logs[0].Depth != 0 {
		t.Errorf("without a name: %+v", logs[0])
	}
	if logs[1].Depth >= logs[2].Depth || len(logs[2].Readings) != 2 || math.Abs(float64(logs[2].Readings[0].Soil)-10) > 1e-9 {
		t.Errorf("Fenmark: %+v and %+v", logs[1], logs[2])
	}
}

func TestDecodeRefuses(t *testing.T) {
	const head = "place,lat,lon,date,soil,depth\n"
	for name, c := range map[string]struct{ text, want string }{
		"empty":        {"", "r.csv: the file is empty; want a first line with place,lat,lon,date,soil,depth"},
		"no column":    {"lat,lon,date\n", `no column "soil"`},
		"nothing":      {head, "r.csv: no reading below the first line"},
		"no unit":      {head + "A,1,2,2026-03-01,50,\n", "r.csv:2: soil: temperature \"50\" has no unit"},
		"no date":      {head + "A,1,2,2026-02-30,50F,\n", `r.csv:2: date "2026-02-30" is no date`},
		"off globe":    {head + "A,100,2,2026-03-01,50F,\n", "r.csv:2: lat 100 is outside -90 to 90"},
		"wrong unit":   {head + "A,1,2,2026-03-01,500F,\n", "r.csv:2: soil 500F is outside"},
		"no depth":     {head + "A,1,2,2026-03-01,50F,deep\n", `r.csv:2: depth "deep"`},
		"moved":        {head + "A,1,2,2026-03-01,50F,\nA,1,3,2026-03-02,50F,\n", `r.csv:3: "A" is at 1.0000, 3.0000 here`},
		"both at once": {head + "A,x,2,2026-03-01,50F,\nA,1,3,2026-03-02,,\n", "r.csv:3: soil"},
	} {
		if _, err := decode(c.text); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", name, err, c.want)
		}
	}
}

func FuzzDecode(f *testing.F) {
	f.Add("place,lat,lon,date,soil,depth\nFenmark,36.5,-45.25,2026-03-08,50 F,4 in\n")
	f.Fuzz(func(t *testing.T, text string) {
		logs, err := decode(text)
		if err == nil && len(logs) == 0 {
			t.Error("neither logs nor an error")
		}
	})
}
