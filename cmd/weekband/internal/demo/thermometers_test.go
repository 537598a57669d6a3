package demo

import (
	"bytes"
	"encoding/csv"
	"math"
	"strconv"
	"strings"
	"testing"
	"time"

	"weekband/grid"
	"weekband/grid/units"
)

// look is one line of thermometers.csv.
type look struct {
	place string
	at    grid.LonLat
	date  time.Time
	soil  units.Celsius
	scale string
	depth string
}

func readLooks(t *testing.T) (all []look) {
	t.Helper()
	lines, err := csv.NewReader(bytes.NewReader(read(t, "thermometers.csv"))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if head := strings.Join(lines[0], ","); head != "place,lat,lon,date,soil,depth" {
		t.Fatalf("columns %s", head)
	}
	for _, l := range lines[1:] {
		lat, errLat := strconv.ParseFloat(l[1], 64)
		lon, errLon := strconv.ParseFloat(l[2], 64)
		date, errDate := time.Parse(time.DateOnly, l[3])
		soil, errSoil := units.Parse(l[4])
		if errLat != nil || errLon != nil || errDate != nil || errSoil != nil {
			t.Fatalf("thermometers.csv: %q", l)
		}
		if _, err := units.ParseDepth(l[5]); l[5] != "" && err != nil {
			t.Errorf("depth: %v", err)
		}
		all = append(all, look{l[0], grid.LonLat{Lon: lon, Lat: lat}, date, soil, l[4][len(l[4])-1:], l[5]})
	}
	return all
}

// Readers sit in towns of the territory, look every 3 to 10 days of spring
// (less often while the ground is frozen), and write in both scales.
func TestThermometersAreInTowns(t *testing.T) {
	towns := map[string]grid.LonLat{}
	for _, p := range readPlaces(t) {
		towns[p.name] = p.at
	}
	looks := readLooks(t)
	places, scales, depths := map[string]bool{}, map[string]int{}, map[string]int{}
	long := 0
	for i, l := range looks {
		if at, ok := towns[l.place]; !ok || at != l.at {
			t.Errorf("%s at %v is no town of the territory", l.place, l.at)
		}
		if m := l.date.Month(); m < time.February || m > time.June {
			t.Errorf("%s looks on %v", l.place, l.date)
		}
		places[l.place] = true
		scales[l.scale]++
		depths[l.depth]++
		if i == 0 || looks[i-1].place != l.place || looks[i-1].date.Year() != l.date.Year() {
			continue
		}
		gap := l.date.Sub(looks[i-1].date).Hours() / 24
		if gap < 3 {
			t.Errorf("%s looks again after %v days on %v", l.place, gap, l.date)
		}
		if gap > 10 {
			long++
		}
	}
	if long > len(looks)/20 {
		t.Errorf("%d of %d looks come after more than 10 days", long, len(looks))
	}
	if len(places) < 12 || len(scales) != 2 || scales["F"] < 100 || scales["C"] < 100 || depths["2 in"] < 50 || depths[""] < 50 {
		t.Errorf("%d places, scales %v, depths %v", len(places), scales, depths)
	}
}

// Thermometers follow the map's soil: their readings of several springs are on
// average no more than a kelvin and a half off what the calibrated map says of
// the season, and hardly off altogether.
func TestThermometersFollowTheMap(t *testing.T) {
	w := load(t)
	w.offsets = calibrated(t)
	sum, n := map[string]float64{}, map[string]float64{}
	total, all := 0.0, 0.0
	for _, l := range readLooks(t) {
		c, ok := w.where.Grid().Locate(l.at)
		if !ok {
			t.Fatalf("%s lies off the grid", l.place)
		}
		year := w.soil(c)
		off := float64(l.soil) - year[min(l.date.YearDay(), len(year))-1]
		sum[l.place] += off
		n[l.place]++
		total += off
		all++
	}
	square := 0.0
	for place := range sum {
		mean := sum[place] / n[place]
		square += mean * mean / float64(len(sum))
		if math.Abs(mean) > 3 {
			t.Errorf("%s is %+.1f K off", place, mean)
		}
	}
	t.Logf("%+.2f K on average, %.2f K between places", total/all, math.Sqrt(square))
	if math.Abs(total/all) > 0.5 || math.Sqrt(square) > 1.5 || math.Sqrt(square) < 0.4 {
		t.Errorf("thermometers are %+.2f K off on average and differ by %.2f K", total/all, math.Sqrt(square))
	}
}
