package calibration

import (
	"bytes"
	"strings"
	"testing"

	"weekband/grid"
	"weekband/grid/soil"
)

var two = []Station{
	{ID: "B", Name: "Sallow, lower", At: grid.LonLat{Lon: -45.5, Lat: 36.25}, Elevation: 12, Coldest: -3.5,
		Offset: soil.Offset{Mean: 1.25, Cos1: -0.5, Sin1: 0.125, Cos2: 0.25, Sin2: -0.375}, StdErr: soil.Offset{Mean: 0.125}, Years: 9.5, Residual: 0.25},
	{ID: "A", Name: "Fenmark", At: grid.LonLat{Lon: -44, Lat: 37}, Coldest: 4, Offset: soil.Offset{Mean: 2}},
}

func TestTableRoundTrip(t *testing.T) {
	var b bytes.Buffer
	if err := Encode(&b, two, "invented"); err != nil {
		t.Fatal(err)
	}
	got, _, err := Decode(&b, "t.csv")
	if err != nil {
		t.Fatal(err)
	}
	if len(got) != 2 || got[0] != two[1] || got[1] != two[0] { // sorted by id
		t.Errorf("got %+v", got)
	}
}

func TestDecodeTakesWhatIsNeeded(t *testing.T) {
	text := "\uFEFFLON,lat,id,coldest_c,sin2,cos2,sin1,cos1,mean,remark\n270,36,A,1,5,4,3,2,1,x\n"
	got, _, err := Decode(strings.NewReader(text), "t.csv")
	want := Station{ID: "A", At: grid.LonLat{Lon: -90, Lat: 36}, Coldest: 1, Offset: soil.Offset{Mean: 1, Cos1: 2, Sin1: 3, Cos2: 4, Sin2: 5}}
	if err != nil || len(got) != 1 || got[0] != want {
		t.Errorf("%+v, %v", got, err)
	}
}

func TestDecodeRefuses(t *testing.T) {
	const head = "id,lat,lon,coldest_c,mean,cos1,sin1,cos2,sin2\n"
	for name, c := range map[string]struct{ text, want string }{
		"empty":        {"", "the file is empty"},
		"no column":    {"id,lat,lon\nA,1,2\n", `no column "coldest_c"`},
		"no number":    {head + "A,1,2,x,1,0,0,0,0\n", `t.csv:2: coldest_c "x" is not a number`},
		"nothing":      {head + "A,1,2,,1,0,0,0,0\n", `t.csv:2: coldest_c "" is not a number`},
		"NaN":          {head + "A,1,2,3,NaN,0,0,0,0\n", "t.csv:2: mean NaN is outside -40 to 40"},
		"off globe":    {head + "A,91,2,3,1,0,0,0,0\n", "t.csv:2: lat 91 is outside -90 to 90"},
		"twice":        {head + "A,1,2,3,1,0,0,0,0\nA,2,2,3,1,0,0,0,0\n", `t.csv:3: id "A" is already on line 2`},
		"no id":        {head + ",1,2,3,1,0,0,0,0\n", "t.csv:2: the id is empty"},
		"short line":   {head + "A,1\n", "t.csv:2: wrong number of fields"},
		"both at once": {head + "A,1,2,3,x,0,0,0,0\nB,1,2,3,1,y,0,0,0\n", `t.csv:3: cos1 "y" is not a number`},
	} {
		if _, _, err := Decode(strings.NewReader(c.text), "t.csv"); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", name, err, c.want)
		}
	}
}

func FuzzDecode(f *testing.F) {
	f.Add(usTable[:2000])
	f.Add("id,lat,lon,coldest_c,mean,cos1,sin1,cos2,sin2\nA,1,2,3,1,0,0,0,0\n")
	f.Fuzz(func(t *testing.T, text string) {
		list, _, err := Decode(strings.NewReader(text), "f.csv")
		if err != nil {
			return
		}
		var b bytes.Buffer
		if err := Encode(&b, list); err != nil {
			t.Fatal(err)
		}
		if _, _, err := Decode(&b, "again.csv"); err != nil {
			t.Errorf("what was written is not read: %v", err)
		}
	})
}
