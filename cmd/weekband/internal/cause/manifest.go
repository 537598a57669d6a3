package cause

import (
	"encoding/json"
	"fmt"
	"io/fs"
	"slices"

	"weekband/cmd/weekband/internal/publish"
	"weekband/grid/crossing"
	"weekband/grid/units"
)

// Manifest is what comparing reads of an edition's manifest. Keys that older
// editions lack stay empty.
type Manifest struct {
	Program     string            `json:"program"`
	Version     string            `json:"version"`
	Title       string            `json:"title"`
	Edition     int               `json:"edition"`
	Period      string            `json:"period"`
	Grid        string            `json:"grid"`
	Unit        string            `json:"unit"`
	Soil        string            `json:"soil"` // what the threshold is compared with
	Calibration string            `json:"calibration"`
	Recipe      map[string]string `json:"recipe"` // settings as resolved, by dotted key
	Inputs      []Input           `json:"inputs"`
	Windows     []Window          `json:"windows"`
}

// Input is a file that an edition was made from.
type Input struct {
	Name   string `json:"name"`
	SHA256 string `json:"sha256"`
	Role   string `json:"role"` // "normals", "terrain" and so on; empty in older editions
}

// Window is the settings of one window.
type Window struct {
	ID        string             `json:"id"`
	Title     string             `json:"title"`
	Threshold units.Celsius      `json:"threshold_c"`
	Starts    units.Celsius      `json:"starts_c"`
	Direction crossing.Direction `json:"direction"`
	HalfLife  float64            `json:"half_life_days"`
	Q10       float64            `json:"q10"`
	Reference units.Celsius      `json:"reference_c"`
	Ahead     float64            `json:"ahead_days"`
	Floor     float64            `json:"worth_floor"`
}

// own reports whether the input is the recipe itself, whose settings are
// compared one by one.
func (in Input) own() bool { return in.Role == "recipe" || in.Name == "(recipe)" }

// Read reads the manifest of the edition in a folder. The error says so when
// the folder holds none.
func Read(fsys fs.FS) (Manifest, error) {
	var m Manifest
	text, err := fs.ReadFile(fsys, publish.Marker)
	if err != nil {
		return m, fmt.Errorf("this is no edition that weekband built: %w", err)
	}
	if err := json.Unmarshal(text, &m); err != nil {
		return m, fmt.Errorf("%s: %w; build the edition again", publish.Marker, err)
	}
	if m.Program != publish.Program || len(m.Windows) == 0 {
		return m, fmt.Errorf("%s tells of program %q and %d windows; want that of an edition that weekband built", publish.Marker, m.Program, len(m.Windows))
	}
	return m, nil
}

// WindowByID returns the settings of a window; ok is false when there is none.
func (m *Manifest) WindowByID(id string) (w Window, ok bool) {
	i := slices.IndexFunc(m.Windows, func(w Window) bool { return w.ID == id })
	if i < 0 {
		return w, false
	}
	return m.Windows[i], true
}

// byRole returns the inputs of a role.
func (m *Manifest) byRole(role string) (out []Input) {
	for _, in := range m.Inputs {
		if in.Role == role {
			out = append(out, in)
		}
	}
	return out
}

// roles reports whether the manifest tells what its inputs are for.
func (m *Manifest) roles() bool {
	return slices.ContainsFunc(m.Inputs, func(in Input) bool { return in.Role != "" })
}
