package answer

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/skerry"
	"weekband/cmd/weekband/internal/usage"
	"weekband/grid/crossing"
)

// edition builds the island with a list of places.
func edition(t *testing.T, list string) string {
	t.Helper()
	dir := t.TempDir()
	recipe, err := skerry.Write(dir)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "places.csv"), []byte(list), 0o644); err != nil {
		t.Fatal(err)
	}
	out := filepath.Join(dir, "out")
	if err := skerry.Build(t.Context(), recipe, out); err != nil {
		t.Fatal(err)
	}
	return out
}

// What is typed is a position, a place or a region, in this order; how it was found
// is said when that is not plain.
func TestFor(t *testing.T) {
	out := edition(t, "name,lat,lon\nSkerry Haven,38.11,-47.3\nNess,38.05,-47.55\nNess,38.15,-46.45\nLantern,38.1,-46.5\nEast Skerry Light,38.1,-46.6\nCarrow Head,38.1,-47.2\nCarrow Bay,38.1,-47.1\n")
	for typed, c := range map[string]struct{ place, region, note string }{
		"skerry haven":   {"Skerry Haven", "West Skerry", ""},
		"Skery Haven":    {"Skerry Haven", "West Skerry", `no place is called "Skery Haven"; this is the nearest name`},
		"Ness":           {"Ness", "West Skerry", "2 places are called so; this is the first, the others are at 38.150,-46.450"},
		"Lanturn":        {"Lantern", "East Skerry", `no place is called "Lanturn"; this is the nearest name`},
		"West Skerry":    {"West Skerry", "West Skerry", "the answer is for a point in the middle of the region"},
		"East Skerry":    {"East Skerry", "East Skerry", "the answer is for a point in the middle of the region"},
		" 38.11 , -46.5": {"", "East Skerry", ""},
		"39,-47":         {"", "", ""},
	} {
		r, err := For(out, typed, nil)
		if err != nil || r.Place != c.place || r.Region != c.region || r.Note != c.note {
			t.Errorf("%q: %q in %q, %q, %v; want %+v", typed, r.Place, r.Region, r.Note, err, c)
			continue
		}
		if off := typed == "39,-47"; off != (r.Windows[0].Reason == crossing.NoData.String()) || off == (r.Windows[0].Dates != nil) || len(r.Cautions) == 0 {
			t.Errorf("%q: %+v, cautions %q", typed, r.Windows[0], r.Cautions)
		}
	}
	for typed, c := range map[string]struct {
		want  string
		usage bool
	}{
		"Carrow":   {`no place is called "Carrow"; did you mean Carrow Bay, Carrow Head?`, false},
		"Atlantis": {`no place or region is called "Atlantis"; 7 places are known, and a position such as 38.2,-45.1 (latitude, longitude) always works`, false},
		"-47.3,38": {"", false}, // longitude first is a position too, in the far south
		"95,10":    {`position "95,10": want latitude -90 to 90, then longitude -180 to 180, in degrees`, true},
		"38,181":   {`position "38,181": want latitude`, true},
	} {
		_, err := For(out, typed, nil)
		if _, wrong := errors.AsType[*usage.Error](err); (err == nil) != (c.want == "") || err != nil && !strings.HasPrefix(err.Error(), c.want) || wrong != c.usage {
			t.Errorf("%q: %v, want %q", typed, err, c.want)
		}
	}
	if _, err := For(filepath.Dir(out), "Ness", nil); err == nil || !strings.HasPrefix(err.Error(), filepath.Dir(out)+": ") {
		t.Errorf("a folder that is no edition: %v", err)
	}
}
