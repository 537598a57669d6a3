package series_test

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"io"
	"os"
	"strings"
	"testing"
	"time"

	"weekband/grid/crossing"
	"weekband/grid/oracle"
	"weekband/grid/series"
)

const twoSites = "id,name,lat,lon,elev_m\nA,Lowen,40,-50,12\nB,Fennay,41,-51,140\n"

func decode(sites, values string) (*series.Network, error) {
	return series.Decode(series.Text{Reader: strings.NewReader(sites), Name: "sites.csv"}, series.Text{Reader: strings.NewReader(values), Name: "values.csv"})
}

func TestDecode(t *testing.T) {
	n, err := decode("\ufeffelev_m,id, Lon ,lat,owner\n12,A,-50,40,x\n140,B,-51,41,y\n3,C,-49,41,z\n",
		"soil10_c,date,id,SOIL7.5_C,soil_wet,precip_mm,tmean_air_c\n"+
			"4.5,2012-03-01,A,4,9,0,7\n,2012-02-28,A,3.5,9,,5\n1,2010-05-17,B,,9,1.5,2\n8,2012-03-02,X,8,9,0,8\n,2012-03-01,C,,,,3\n")
	if err != nil {
		t.Fatal(err)
	}
	if fmt.Sprint(n.Depths) != "[0.075 0.1]" || n.Monthly || len(n.List) != 2 {
		t.Fatalf("%d stations, depths %v, monthly %v", len(n.List), n.Depths, n.Monthly)
	}
	a := n.List[0]
	if a.ID != "A" || a.At.Lon != -50 || a.At.Lat != 40 || a.Elevation != 12 || a.First.String() != "2012-02-28" || a.Len() != 3 {
		t.Errorf("A became %+v", a)
	}
	for name, c := range map[string]struct {
		v    series.Values
		want string
	}{ // 29 February is there as a day without values
		"air":           {a.Air, "{[5 0 7] [true false true]}"},
		"soil 7.5 cm":   {a.Soil[0], "{[3.5 0 4] [true false true]}"},
		"soil 10 cm":    {a.Soil[1], "{[0 0 4.5] [false false true]}"},
		"precipitation": {a.Precipitation, "{[0 0 0] [false false true]}"},
	} {
		if got := fmt.Sprint(c.v); got != c.want {
			t.Errorf("%s is %s, want %s", name, got, c.want)
		}
	}
	if i, ok := n.Depth(0.1016); !ok || i != 1 {
		t.Errorf("4 in is sensor %d, %v", i, ok)
	}
	if _, ok := n.Depth(0.2); ok {
		t.Error("there is no sensor at 20 cm")
	}
	notes := strings.Join(n.Notes, "\n")
	for _, want := range []string{"soil_wet", "values.csv:5", "without both"} {
		if !strings.Contains(notes, want) {
			t.Errorf("the notes do not speak of %q:\n%s", want, notes)
		}
	}
}

func TestDecodeMonths(t *testing.T) {
	n, err := decode(twoSites, "id,date,air_c,soil10_c\nA,1999-12,-3,1\nA,2000-02,-2,0.5\n")
	if err != nil {
		t.Fatal(err)
	}
	s := n.List[0]
	if !n.Monthly || !s.Monthly || s.Len() != 3 || s.Date(2) != series.NewDate(2000, time.February, 1) || s.Air.Has[1] {
		t.Errorf("%+v", s)
	}
	if len(s.Precipitation.Has) != 0 {
		t.Error("precipitation out of nothing")
	}
}

func TestDecodeRefuses(t *testing.T) {
	const values = "id,date,air_c,soil10_c\nA,2010-05-17,12,14\n"
	for name, c := range map[string]struct{ sites, values, want string }{
		"no elevation":   {"id,name,lat,lon\nA,x,1,2\n", values, "elev_m"},
		"latitude":       {strings.Replace(twoSites, "40", "140", 1), values, "sites.csv:2: lat 140"},
		"site twice":     {twoSites + "A,again,41,-50,12\n", values, "already on line 2"},
		"no air":         {twoSites, "id,date,soil10_c\n", `no column "air_c"`},
		"two airs":       {twoSites, "id,date,air_c,tmean_air_c,soil10_c\n", "both air_c and tmean_air_c"},
		"no soil":        {twoSites, "id,date,air_c,soil_10\n", "no column of soil"},
		"one depth":      {twoSites, "id,date,air_c,soil5_c,soil5.0_c\n", "same depth"},
		"not a date":     {twoSites, values + "A,17.5.2010,1,1\n", "values.csv:3: date"},
		"no such day":    {twoSites, values + "A,2011-02-29,1,1\n", "values.csv:3"},
		"day and month":  {twoSites, values + "A,2010-06,1,1\n", "all days or all months"},
		"date twice":     {twoSites, values + "A,2010-05-18,1,1\nA,2010-05-17,1,1\n", "values.csv:4: 2010-05-17"},
		"not a number":   {twoSites, values + "A,2010-05-18,warm,1\n", "values.csv:3: air_c"},
		"NaN":            {twoSites, values + "A,2010-05-18,NaN,1\n", "values.csv:3: air_c"},
		"a code for it":  {twoSites, values + "A,2010-05-18,1,-9999\n", "leave the field empty"},
		"short row":      {twoSites, values + "A,2010-05-18,1\n", "values.csv:3"},
		"empty":          {twoSites, "", "values.csv: the file is empty"},
		"nothing paired": {twoSites, "id,date,air_c,soil10_c\nA,2010-05-17,12,\n", "both air and soil"},
	} {
		if n, err := decode(c.sites, c.values); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, %v; want an error with %q", name, n, err, c.want)
		}
	}
}

// All mistakes of both files come in one run, in order, and not too many.
func TestDecodeCollectsMistakes(t *testing.T) {
	_, err := decode(twoSites+"C,x,99,0,0\n", "id,date,air_c,soil10_c\nA,2010-05-17,1,1\nA,2010-05-17,1,1\nB,2010,1,1\n"+strings.Repeat("B,2010-01-01,x,1\n", 30))
	if err == nil {
		t.Fatal("no error")
	}
	lines := strings.Split(err.Error(), "\n")
	if len(lines) != 21 || !strings.HasPrefix(lines[0], "sites.csv:4") || !strings.HasPrefix(lines[1], "values.csv:4") || !strings.HasPrefix(lines[2], "values.csv:5") {
		t.Errorf("%d lines:\n%v", len(lines), err)
	}
}

func FuzzDecode(f *testing.F) {
	f.Add(twoSites, "id,date,air_c,soil10_c,precip_mm\nA,2010-05-17,12,14,\nB,2010-05-18,,3,1\n")
	f.Add(twoSites, "id,date,tmean_air_c,soil5_c,soil7.5_c\nA,2012-02-29,1,2,3\nA,2012-02-27,1,,\n")
	f.Add("id,lat,lon,elev_m\nA,0,0,0\n", "id,date,air_c,soil0_c\nA,1999-12,1,1\nA,2001-02,1,1\n")
	f.Fuzz(func(t *testing.T, sites, values string) {
		n, err := decode(sites, values)
		if err != nil {
			return
		}
		for i := range n.List {
			s := &n.List[i]
			if len(s.Soil) != len(n.Depths) {
				t.Fatalf("%d soils at %d depths", len(s.Soil), len(n.Depths))
			}
			for _, v := range append([]series.Values{s.Air}, s.Soil...) {
				if len(v.Vals) != s.Len() || len(v.Has) != s.Len() {
					t.Fatalf("%d values in a series of %d", len(v.Vals), s.Len())
				}
				for k, x := range v.Vals {
					if !(x >= -90 && x <= 80) || !v.Has[k] && x != 0 {
						t.Fatalf("value %v, there: %v", x, v.Has[k])
					}
				}
			}
		}
		n.Clean(series.Rules{})
		for i := range n.List {
			s := &n.List[i]
			if normal, ok := s.Normal(0, 2); ok {
				s.Yearly(&s.Soil[0], &normal.Soil, crossing.Trigger{Level: 5}, series.Trailing7)
			}
			s.MonthSD(&s.Air)
		}
	})
}

func BenchmarkDecode(b *testing.B) {
	sites, err := os.ReadFile(oracle.Data(b, "us/soil-stations.csv"))
	if err != nil {
		b.Fatal(err)
	}
	f, err := os.Open(oracle.Data(b, "us/soil-daily.csv.gz"))
	if err != nil {
		b.Fatal(err)
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		b.Fatal(err)
	}
	values, err := io.ReadAll(z)
	if err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(len(values)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := series.Decode(series.Text{Reader: bytes.NewReader(sites), Name: "s"}, series.Text{Reader: bytes.NewReader(values), Name: "v"}); err != nil {
			b.Fatal(err)
		}
	}
}
