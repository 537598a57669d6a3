package sites_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"weekband/grid"
	"weekband/grid/table"
	"weekband/grid/table/sites"
)

func text(name, s string) table.Text { return table.Text{Reader: strings.NewReader(s), Name: name} }

func TestRead(t *testing.T) {
	var wrong table.Mistakes
	list, err := sites.Read(text("s.csv", "elev_m,id,owner,lon,lat\n12,A,x,-50,40\n-430,B,y,180,-90\n"), &wrong)
	if err != nil || wrong.Err() != nil {
		t.Fatal(err, wrong.Err())
	}
	want := []sites.Site{{ID: "A", At: grid.LonLat{Lon: -50, Lat: 40}, Elevation: 12}, {ID: "B", At: grid.LonLat{Lon: 180, Lat: -90}, Elevation: -430}}
	if !slices.Equal(list.Sites, want) {
		t.Errorf("%+v, want %+v", list.Sites, want)
	}
}

func TestReadNotesMistakes(t *testing.T) {
	var wrong table.Mistakes
	list, err := sites.Read(text("s.csv", "id,name,lat,lon,elev_m\nA,Lowen,140,-50,12\nB,Fennay,41,-51,x\nC,Hethay,41,200,99999\nD,Orra,1,2,3\nD,Orra,1,2,3\n,Orra,1,2,3\n"), &wrong)
	if err != nil || len(list.Sites) != 1 {
		t.Fatal(list.Sites, err)
	}
	want := `s.csv:2: lat 140 is outside -90 to 90 degrees; write decimal degrees, north and east positive; are lat and lon swapped?
s.csv:3: elev_m "x" is not a number; want one from -500 to 9000 m
s.csv:4: lon 200 is outside -180 to 180 degrees; write decimal degrees, north and east positive; are lat and lon swapped?
s.csv:4: elev_m 99999 is outside -500 to 9000 m
s.csv:6: id "D" is already on line 5; want it once
s.csv:7: the id is empty; want one of its own for every row`
	if err := wrong.Err(); err == nil || err.Error() != want {
		t.Errorf("%v\nwant\n%s", err, want)
	}
	if _, err := sites.Read(text("s.csv", "id,lat,lon\n"), &wrong); err == nil || !strings.Contains(err.Error(), `no column "elev_m"; the first line is "id,lat,lon", want id,name,lat,lon,elev_m`) {
		t.Errorf("%v", err)
	}
}

// Rows of a site with a mistake are not those of a stranger.
func TestOf(t *testing.T) {
	var wrong table.Mistakes
	list, err := sites.Read(text("s.csv", "id,lat,lon,elev_m\nA,1,2,3\nbad,1,2,x\nB,1,2,3\n"), &wrong)
	if err != nil {
		t.Fatal(err)
	}
	values, err := table.Open(text("v.csv", "id\nbad\n\"\"\nB\nB\nX\nX\nA\nX\nbad\n"), table.Form{}, &wrong)
	if err != nil {
		t.Fatal(err)
	}
	got := ""
	for values.Next() {
		if i, ok := list.Of(values, values.Find("id")); ok {
			got += fmt.Sprint(i)
		} else {
			got += "-"
		}
	}
	if n, first := list.Strangers(); got != "--11--0--" || n != 4 || first != `v.csv:3: ""` {
		t.Errorf("%s; %d strangers, the first at %s", got, n, first)
	}
}

func Example() {
	var wrong table.Mistakes
	list, err := sites.Read(text("sites.csv", "id,name,lat,lon,elev_m\nM1,Merrow Bridge,38.25,-45.5,12\n"), &wrong)
	if err != nil {
		fmt.Println(err)
		return
	}
	values, err := table.Open(text("values.csv", "id,air_c\nM1,7.5\nM9,8\n"), table.Form{Need: []string{"id", "air_c"}}, &wrong)
	if err != nil {
		fmt.Println(err)
		return
	}
	for values.Next() {
		if i, ok := list.Of(values, values.Find("id")); ok {
			fmt.Println(list.Sites[i].Name, values.Text(values.Find("air_c")))
		}
	}
	fmt.Println(list.Strangers())
	// Output:
	// Merrow Bridge 7.5
	// 1 values.csv:3: "M9"
}

func FuzzRead(f *testing.F) {
	f.Add("id,name,lat,lon,elev_m\nA,Lowen,40,-50,12\n", "id\nA\nB\n")
	f.Add("id,lat,lon,elev_m\nA,NaN,0,0\nA,1,2,3\n", "id,v\n\"\",\nA,1\n")
	f.Fuzz(func(t *testing.T, s, v string) {
		var wrong table.Mistakes
		list, err := sites.Read(text("s.csv", s), &wrong)
		if err != nil {
			return
		}
		for _, s := range list.Sites {
			if s.ID == "" || !(s.At.Lat >= -90 && s.At.Lat <= 90 && s.At.Lon >= -180 && s.At.Lon <= 180 && s.Elevation >= sites.Lowest && s.Elevation <= sites.Highest) {
				t.Errorf("read %+v", s)
			}
		}
		values, err := table.Open(text("v.csv", v), table.Form{Need: []string{"id"}}, &wrong)
		if err != nil {
			return
		}
		for id := values.Find("id"); values.Next(); {
			i, ok := list.Of(values, id)
			if ok && list.Sites[i].ID != values.Text(id) {
				t.Errorf("%q is taken for %+v", values.Text(id), list.Sites[i])
			}
		}
	})
}
