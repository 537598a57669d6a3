package verdict_test

import (
	"errors"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/skerry"
	"weekband/cmd/weekband/internal/usage"
	"weekband/cmd/weekband/internal/verdict"
)

// built is an edition of the island with another recipe.
func built(t *testing.T, from, to string) (edition string) {
	t.Helper()
	dir := t.TempDir()
	recipe, err := skerry.Write(dir)
	if err == nil && from != "" {
		err = skerry.Change(recipe, from, to)
	}
	edition = filepath.Join(dir, "out")
	if err := errors.Join(err, skerry.Build(t.Context(), recipe, edition)); err != nil {
		t.Fatal(err)
	}
	return edition
}

// table writes a table of readings.
func table(t *testing.T, lines ...string) (path string) {
	t.Helper()
	path = filepath.Join(t.TempDir(), "readings.csv")
	if err := os.WriteFile(path, []byte("place,lat,lon,date,soil,depth\n"+strings.Join(lines, "\n")+"\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// judge compares and notes nothing.
func judge(t *testing.T, edition, readings, window string) (*verdict.Verdicts, error) {
	t.Helper()
	return verdict.Judge(t.Context(), edition, readings, window, func([]string) {})
}

// Two years of one place by hand: 53 °F and 57 °F four days apart are 55 °F halfway,
// at noon of 26 April 2025 (day 116.5) and of 2 May 2026 (122.5), median 119.5. A
// place without a name is told by its position, and one off the map left out.
func TestVerdictOfTwoYears(t *testing.T) {
	readings := table(t,
		"Haven,38.11,-47.3,2025-04-24,53 F,4 in", "Haven,38.11,-47.3,2025-04-28,57 F,4 in", "Haven,38.11,-47.3,2025-05-02,58 F,4 in",
		"Haven,38.11,-47.3,2026-04-30,53 F,4 in", "Haven,38.11,-47.3,2026-05-04,57 F,4 in", "Haven,38.11,-47.3,2026-05-08,58 F,4 in",
		",38.05,-46.5,2026-05-04,53 F,", "The sea,10,10,2026-05-04,53 F,")
	v, err := judge(t, built(t, "", ""), readings, "")
	if err != nil {
		t.Fatal(err)
	}
	r := v.Reply()
	w := r.Windows[0]
	if len(r.Windows) != 1 || w.OffMap != 1 || len(w.Places) != 2 || w.Total.Readings != 7 || w.Total.Dated != 1 || w.Total.Years != 2 || len(r.Cautions) != 6 {
		t.Fatalf("%+v", r)
	}
	other, haven := w.Places[0], w.Places[1] // in the order of their names
	if haven.Off == nil || haven.Measured != "04-29" || len(haven.Years) != 2 || haven.Years[0].Day != "04-26" || haven.Years[1].Day != "05-02" || !haven.Years[1].Inside {
		t.Fatalf("Haven: %+v", haven)
	}
	if typical := 119.5 - *haven.Off; typical < 125 || typical > 128 { // within the weeks of both regions
		t.Errorf("off by %v days", *haven.Off)
	}
	if other.Off != nil || other.Measured != "" || other.Typical == "" || other.Readings != 1 {
		t.Errorf("one reading: %+v", other)
	}
	var b strings.Builder
	if err := v.Write(&b); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		"Spring, warming to 55 °F (12.8 °C)\n", "  Haven at 4 in ", "  38.050, -46.500 ", "readings do not tell a day", "2 places, 7 readings: soil is ",
		"1 places with 2 years: the median year is ", " days earlier than the map's typical day on average; ", "1 thermometers lie off the map and are left out",
		"the map stands for normals of 1991-2020", "Typical conditions, not a forecast. Check your own soil.",
	} {
		if !strings.Contains(strings.ReplaceAll(b.String(), "\u00a0", " "), want) {
			t.Errorf("no %q in\n%s", want, &b)
		}
	}
	picture := filepath.Join(t.TempDir(), "verdict.png")
	if err := v.Draw(picture); err != nil {
		t.Fatal(err)
	}
	f, err := os.Open(picture)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if c, err := png.DecodeConfig(f); err != nil || c.Width != 2400 {
		t.Errorf("a picture %d pixels wide, %v", c.Width, err)
	}
}

// Readings on one side of the threshold tell no day; there is nothing to draw.
func TestVerdictWithoutYears(t *testing.T) {
	v, err := judge(t, built(t, "", ""), table(t, "Haven,38.11,-47.3,2026-04-24,50 F,"), "spring")
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	if err := v.Write(&b); err != nil || !strings.Contains(b.String(), "none of 1 thermometers with 1 readings tells the day of a year") {
		t.Errorf("%v\n%s", err, &b)
	}
	picture := filepath.Join(t.TempDir(), "none.png")
	if err := v.Draw(picture); err == nil || !strings.HasPrefix(err.Error(), picture+": no thermometer tells the day of a year for Spring") {
		t.Errorf("%v", err)
	}
	if _, err := os.Stat(picture); err == nil {
		t.Error("a picture of nothing")
	}
}

// A window whose threshold is never reached has no day to compare, and a cooling one
// is told as such.
func TestVerdictWhereTheMapHasNoDay(t *testing.T) {
	v, err := judge(t, built(t, "threshold: 55 °F, starts: 54 °F", "threshold: 100 °F, direction: cooling"),
		table(t, "Haven,38.11,-47.3,2026-04-24,50 F,"), "")
	if err != nil {
		t.Fatal(err)
	}
	if p := v.Reply().Windows[0].Places[0]; p.Reason != "never" || p.Typical != "" || p.Off != nil {
		t.Errorf("%+v", p)
	}
	var b strings.Builder
	if err := v.Write(&b); err != nil || !strings.Contains(b.String(), "Spring, cooling to 100 °F") {
		t.Errorf("%v\n%s", err, &b)
	}
}

// What cannot be judged is refused: with the folder or the table, and what is wanted.
func TestVerdictRefusals(t *testing.T) {
	soil, air := built(t, "", ""), built(t, "soil: {calibration: none}", "soil: none")
	good, sea := table(t, "Haven,38.11,-47.3,2026-04-24,50 F,"), table(t, "The sea,10,10,2026-05-04,53 F,")
	for name, c := range map[string]struct {
		edition, readings, window string
		want                      string
		usage                     bool
	}{
		"no such window": {soil, good, "autumn", `window "autumn": ` + soil + " has spring", true},
		"a map of air":   {air, good, "", air + " maps air: soil thermometers cannot tell how good it is", false},
		"off the map":    {soil, sea, "", sea + ": none of the thermometers lies on the map", false},
		"no edition":     {filepath.Dir(soil), good, "", filepath.Dir(soil) + ": ", false},
		"no table":       {soil, soil + ".csv", "", "open " + soil + ".csv", false},
		"no column":      {soil, filepath.Join(filepath.Dir(soil), "places.csv"), "", "places.csv:1", false},
	} {
		_, err := judge(t, c.edition, c.readings, c.window)
		if _, wrong := errors.AsType[*usage.Error](err); err == nil || !strings.Contains(err.Error(), c.want) || wrong != c.usage {
			t.Errorf("%s: %v, want %q", name, err, c.want)
		}
	}
}
