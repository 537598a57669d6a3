package output_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/output"
	"weekband/cmd/weekband/internal/skerry"
)

// surveyed works the island out, after changes of its recipe, and opens a folder.
func surveyed(t *testing.T, changes ...[2]string) (*skerry.Surveyed, *os.Root) {
	t.Helper()
	dir := t.TempDir()
	path, err := skerry.Write(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range changes {
		if err := skerry.Change(path, c[0], c[1]); err != nil {
			t.Fatal(err)
		}
	}
	s, err := skerry.Survey(t.Context(), path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(s.Inputs.Close)
	out := filepath.Join(dir, "out")
	if err := os.Mkdir(out, 0o755); err != nil {
		t.Fatal(err)
	}
	root, err := os.OpenRoot(out)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { root.Close() })
	return s, root
}

// there reports whether an edition holds a file.
func there(root *os.Root, name string) bool {
	_, err := root.Stat(name)
	return err == nil
}

// Grids that were written as cells went by are not written again; errors are written
// where they are known, which is where soil is told from air.
func TestDataWithAndWithoutGrids(t *testing.T) {
	for _, c := range []struct {
		from, to string
		errors   bool
	}{{"calibration: none", "calibration: none", true}, {"soil: {calibration: none}", "soil: none", false}} {
		s, root := surveyed(t, [2]string{c.from, c.to})
		for _, grids := range []bool{false, true} {
			if err := output.WriteData(root, s.Inputs, s.Windows, grids); err != nil {
				t.Fatal(err)
			}
			if there(root, output.GridFile("spring")) != grids || there(root, output.ErrorFile("spring")) != (grids && c.errors) || !there(root, output.BandsFile("spring")) || !there(root, output.RegionsFile) {
				t.Errorf("%s, with grids %v: wrong files", c.to, grids)
			}
		}
	}
}

// Regions come back by their titles, which tell those of one name apart; an edition
// without regions has none, and one that is not there is an error.
func TestPublishedRegions(t *testing.T) {
	s, root := surveyed(t)
	for i := range s.Inputs.Areas.Regions {
		s.Inputs.Areas.Regions[i].Name = "Skerry"
	}
	if set, err := output.PublishedRegions(root.Name()); err != nil || len(set.Regions) != 0 {
		t.Errorf("without regions: %v, %v", set, err)
	}
	if err := output.WriteData(root, s.Inputs, s.Windows, false); err != nil {
		t.Fatal(err)
	}
	set, err := output.PublishedRegions(root.Name())
	if err != nil || len(set.Regions) != 2 || set.Regions[0].Name != "Skerry (W)" || set.Regions[1].ID != "E" || set.Regions[0].Shape[0][0][0] != s.Inputs.Areas.Regions[0].Shape[0][0][0] {
		t.Errorf("%+v, %v", set, err)
	}
	if _, err := output.PublishedRegions(filepath.Join(root.Name(), "gone")); err == nil || !strings.Contains(err.Error(), "gone") {
		t.Errorf("a folder that is not there: %v", err)
	}
}

// A calendar links to the page of its region where the recipe says where the edition
// will be; regions of which no part has a week have none.
func TestCalendarsOfRegions(t *testing.T) {
	s, root := surveyed(t, [2]string{"size: 800", "size: 800\naddress: https://skerry.example/maps"})
	s.Findings.Rows[1].Shares.DatedShare, s.Findings.Rows[1].Dated = 0, false // East Skerry
	if err := output.WriteCalendars(root, s.Recipe, s.Inputs.Areas, s.Findings.Rows); err != nil {
		t.Fatal(err)
	}
	text, err := root.ReadFile(output.CalendarFile("west-skerry"))
	if err != nil || !strings.Contains(strings.ReplaceAll(string(text), "\r\n ", ""), "https://skerry.example/maps/regions/west-skerry.html") {
		t.Errorf("%v\n%s", err, text)
	}
	if there(root, output.CalendarFile("east-skerry")) {
		t.Error("a calendar without weeks")
	}
}

// A manifest lists its notes even when there are none, for programs that count them,
// and names the calibration and its stations.
func TestManifest(t *testing.T) {
	s, _ := surveyed(t)
	s.Inputs.Notes = nil
	if m := output.NewManifest(s.Recipe, s.Inputs, s.Findings.Figures); m.Notes == nil || m.Calibration != "none" || len(m.Windows) != 1 || m.Windows[0].P10.Day >= m.Windows[0].P90.Day {
		t.Errorf("%+v", m)
	}
	s, _ = surveyed(t, [2]string{"calibration: none", "calibration: us"})
	if m := output.NewManifest(s.Recipe, s.Inputs, s.Findings.Figures); !strings.HasPrefix(m.Calibration, "us: ") || !strings.Contains(m.Calibration, " stations, ") || m.Windows[0].BeyondKm2 < 2000 {
		t.Errorf("%+v", m)
	}
	air, _ := surveyed(t, [2]string{"soil: {calibration: none}", "soil: none"})
	if m := output.NewManifest(air.Recipe, air.Inputs, nil); m.Calibration != "" || m.Soil != "air" {
		t.Errorf("of air: %+v", m)
	}
}
