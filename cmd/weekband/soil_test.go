package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/answer"
	"weekband/cmd/weekband/internal/verdict"
	"weekband/grid/calibration"
)

// invented writes a folder with series of ten invented stations over six
// years: soil follows air with an offset that grows eastward.
func invented(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	var sites, values strings.Builder
	sites.WriteString("id,name,lat,lon,elev_m\n")
	values.WriteString("id,date,air_c,soil10_c\n")
	for s := range 10 {
		lon := -54 + 1.2*float64(s)
		fmt.Fprintf(&sites, "S%d,Station %d,%.2f,%.2f,100\n", s, s, 32+0.7*float64(s%4), lon)
		for month := range 6 * 12 {
			x := 2 * math.Pi * (float64(month%12) - 0.4) / 12
			air := 14 - 9*math.Cos(x) + 0.3*math.Sin(float64(month*(s+2)))
			soil := 14 - 8.7*math.Cos(x-0.1) + 1 + 0.1*float64(s) + 0.3*math.Sin(float64(month*(s+2)+1))
			fmt.Fprintf(&values, "S%d,%d-%02d,%.2f,%.2f\n", s, 2015+month/12, month%12+1, air, soil)
		}
	}
	write(t, filepath.Join(dir, "sites.csv"), sites.String())
	write(t, filepath.Join(dir, "series.csv"), values.String())
	return dir
}

func write(t *testing.T, name, text string) {
	t.Helper()
	if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

func TestCalibrate(t *testing.T) {
	dir := invented(t)
	out := filepath.Join(dir, "offsets.csv")
	code, text, log := weekband(t, "calibrate", filepath.Join(dir, "sites.csv"), filepath.Join(dir, "series.csv"), "--out", out, "--source", "invented")
	if code != exitOK {
		t.Fatal(log)
	}
	for _, want := range []string{"10 stations", "10 cm, warming to 55 °F (12.8 °C)", "stations, itself left out", "air taken as soil"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	f, err := os.Open(out)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	list, _, err := calibration.Decode(f, out)
	if err != nil || len(list) != 10 {
		t.Fatalf("%d stations, %v", len(list), err)
	}
	if first, last := list[0].Offset.Mean, list[9].Offset.Mean; math.Abs(last-first-0.9) > 0.2 {
		t.Errorf("mean offsets %.2f and %.2f K, want 0.9 apart", first, last)
	}
	code, _, log = weekband(t, "calibrate", filepath.Join(dir, "sites.csv"), filepath.Join(dir, "sites.csv"), "--out", out)
	if code != exitData || !strings.Contains(log, "sites.csv:1: no column") {
		t.Errorf("series without columns: %d, %s", code, log)
	}
	if again, err := os.ReadFile(out); err != nil || !bytes.Contains(again, []byte("# Source: invented")) {
		t.Errorf("after a failure the table is %q, %v", again, err)
	}
}

// A log that follows the map of the demo but for a kelvin, at a place of its
// own, comes out a kelvin warmer and some days early.
func TestVerify(t *testing.T) {
	out := demoEdition(t)
	dir := t.TempDir()
	readings := filepath.Join(dir, "readings.csv")
	code, text, log := weekband(t, "lookup", out, "vennaford", "--json")
	if code != exitOK {
		t.Fatal(log)
	}
	var place struct{ Lat, Lon float64 }
	if err := json.Unmarshal([]byte(text), &place); err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	b.WriteString("place,lat,lon,date,soil,depth\n")
	for year := 2024; year < 2027; year++ {
		for day := 1; day < 200; day += 6 {
			month, date := 1+day/30, 1+day%28
			fmt.Fprintf(&b, "Vennaford,%v,%v,%d-%02d-%02d,%.1f F,4 in\n", place.Lat, place.Lon, year, month, date, 30+0.2*float64(30*(month-1)+date))
		}
	}
	b.WriteString("The sea,10,10,2026-03-01,10 C,\n")
	write(t, readings, b.String())
	picture := filepath.Join(dir, "verify.png")
	code, text, log = weekband(t, "verify", out, readings, "--window", "summer-annuals", "--picture", picture)
	if code != exitOK {
		t.Fatal(log)
	}
	for _, want := range []string{"Vennaford at 4 in", "1 places with 3 years", "1 thermometers lie off the map", "Check your own soil"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	f, err := os.Open(picture)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if c, err := png.DecodeConfig(f); err != nil || c.Width != 2400 {
		t.Errorf("picture %d px wide, %v", c.Width, err)
	}
	var reply verdict.Reply
	if _, text, _ = weekband(t, "verify", out, readings, "--json"); json.Unmarshal([]byte(text), &reply) != nil || len(reply.Windows) != 2 {
		t.Fatalf("JSON: %s", text)
	}
	p := reply.Windows[0].Places[0]
	if p.Off == nil || len(p.Years) != 3 || math.Abs(dayIn(p.Years[0].Day)-(55-30)/0.2) > 5 {
		t.Errorf("place %+v", p)
	}
	for name, c := range map[string]struct {
		args []string
		code int
		want string
	}{
		"no such window": {[]string{"verify", out, readings, "--window", "x"}, exitUsage, "summer-annuals, winter-annuals"},
		"no edition":     {[]string{"verify", dir, readings}, exitData, "no edition"},
		"no readings":    {[]string{"verify", out, filepath.Join(dir, "none.csv")}, exitData, "none.csv"},
	} {
		if code, _, log := weekband(t, c.args...); code != c.code || !strings.Contains(log, c.want) {
			t.Errorf("%s: %d, %s", name, code, log)
		}
	}
}

// dayIn returns the day of the year of an ISO month and day, 30 days a month.
func dayIn(iso string) float64 {
	var m, d int
	if _, err := fmt.Sscanf(iso, "%d-%d", &m, &d); err != nil {
		return math.NaN()
	}
	return float64(30*(m-1) + d)
}

func TestReadings(t *testing.T) {
	out := demoEdition(t)
	reply := func(args ...string) answer.WindowReply {
		t.Helper()
		code, text, log := weekband(t, append([]string{"lookup", out, "vennaford", "--json"}, args...)...)
		var r answer.Reply
		if code != exitOK || json.Unmarshal([]byte(text), &r) != nil {
			t.Fatalf("%d: %s", code, log)
		}
		return r.Windows[0]
	}
	usual := reply()
	if usual.Outlook != nil || usual.Worth == nil || usual.Error == nil {
		t.Fatalf("without readings: %+v", usual)
	}
	if w := usual.Worth; !(w.AheadFrom < w.OntimeTo && w.Best >= w.OntimeTo && w.CatchupTo < w.OntimeTo) {
		t.Errorf("worth %+v", w)
	}
	date := "2027-" + usual.Dates.OntimeFrom
	cold, warm := reply("--reading", date+"=38F"), reply("--reading", date+"=52F")
	if cold.Outlook == nil || warm.Outlook == nil || cold.Outlook.State != "expected" || !(warm.Outlook.Day < cold.Outlook.Day) {
		t.Fatalf("cold %+v, warm %+v", cold.Outlook, warm.Outlook)
	}
	if !(warm.Outlook.Sigma < math.Hypot(*usual.Sigma, *usual.Error)) {
		t.Errorf("a reading leaves %v days of doubt, without it %v and %v", warm.Outlook.Sigma, *usual.Sigma, *usual.Error)
	}
	if hot := reply("--reading", "2027-"+usual.Dates.CatchupTo+"=70F"); hot.Outlook.State != "reached" {
		t.Errorf("past the threshold: %+v", hot.Outlook)
	}
	for _, bad := range []string{"45F", "2027-03-25=45", "2027-02-30=45F", "yesterday=45F", date + "=140F"} {
		if code, _, log := weekband(t, "lookup", out, "vennaford", "--reading", bad); code != exitUsage || !strings.Contains(log, "reading") {
			t.Errorf("%s: %d, %s", bad, code, log)
		}
	}
}
