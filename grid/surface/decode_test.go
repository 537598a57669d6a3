package surface_test

import (
	"math"
	"strings"
	"testing"

	"weekband/grid/surface"
)

func decode(sites, values string) (*surface.Stations, error) {
	return surface.Decode(surface.Text{Reader: strings.NewReader(sites), Name: "sites.csv"}, surface.Text{Reader: strings.NewReader(values), Name: "values.csv"})
}

// year is the twelve lines of one station.
func year(id, rest string) string {
	var b strings.Builder
	for _, m := range []string{"1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12"} {
		b.WriteString(id + "," + m + "," + rest + "\n")
	}
	return b.String()
}

func TestDecode(t *testing.T) {
	s, err := decode(
		"\ufeffname,elev_m,id,lon,lat,owner\nLowen,12,A,-50,40,x\nFennay,14,B,-50.00001,40.00001,y\nHethay,3,C,-49,41,z\n",
		"id,month,std_c,tavg_c\n"+year("A", "1.5,10")+year("B", "2.5,12")+"C,1,1,5\nX,1,1,5\n")
	if err != nil {
		t.Fatal(err)
	}
	if len(s.List) != 1 {
		t.Fatalf("%d stations: %+v", len(s.List), s.List)
	}
	a := s.List[0]
	if a.ID != "A" || a.Name != "Lowen" || a.Elevation != 13 || a.Mean[4] != 11 || !a.HasSD || math.Abs(float64(a.SD[4])-2) > 1e-12 {
		t.Errorf("two at one place became %+v", a)
	}
	notes := strings.Join(s.Notes, "\n")
	for _, want := range []string{"joined", "not in the list", "twelve months"} {
		if !strings.Contains(notes, want) {
			t.Errorf("the notes do not speak of %q:\n%s", want, notes)
		}
	}
}

func TestDecodeRefuses(t *testing.T) {
	const sites = "id,name,lat,lon,elev_m\nA,Lowen,40,-50,12\n"
	values := "id,month,tavg_c\n" + year("A", "10")
	for name, c := range map[string]struct{ sites, values, want string }{
		"no column":           {"id,name,lat,lon\nA,x,1,2\n", values, "elev_m"},
		"latitude":            {"id,name,lat,lon,elev_m\nA,x,140,-50,12\n", values, "sites.csv:2"},
		"elevation":           {"id,name,lat,lon,elev_m\nA,x,40,-50,99999\n", values, "sites.csv:2"},
		"id twice":            {sites + "A,again,41,-50,12\n", values, "already on line 2"},
		"month 13":            {sites, values + "A,13,5\n", "values.csv:14"},
		"month twice":         {sites, values + "A,12,5\n", "values.csv:14"},
		"not a number":        {sites, strings.Replace(values, "A,3,10", "A,3,warm", 1), "values.csv:4"},
		"NaN":                 {sites, strings.Replace(values, "A,3,10", "A,3,NaN", 1), "values.csv:4"},
		"Fahrenheit":          {sites, strings.Replace(values, "A,7,10", "A,7,85", 1), "values.csv:8"},
		"empty":               {"", "", "sites.csv"},
		"no complete station": {sites, "id,month,tavg_c\nA,1,5\n", "all twelve months"},
	} {
		if s, err := decode(c.sites, c.values); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, %v; want an error with %q", name, s, err, c.want)
		}
	}
}

func FuzzDecode(f *testing.F) {
	f.Add("id,name,lat,lon,elev_m\nA,Lowen,40,-50,12\n", "id,month,tavg_c\n"+year("A", "10"))
	f.Add("id,lat,lon,elev_m\n", "id,month,tavg_c,std_c\n")
	f.Fuzz(func(t *testing.T, sites, values string) {
		s, err := decode(sites, values)
		if err != nil {
			return
		}
		for _, st := range s.List {
			if !(st.At.Lat >= -90 && st.At.Lat <= 90 && st.At.Lon >= -180 && st.At.Lon <= 180) {
				t.Errorf("read %+v", st)
			}
			for _, v := range st.Mean {
				if !(v >= -90 && v <= 60) {
					t.Errorf("read %+v", st)
				}
			}
		}
	})
}
