package main

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io"
	"os"

	"weekband/cmd/weekband/internal/publish"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid/crossing"
	"weekband/grid/season"
	"weekband/grid/weeks"
	"weekband/render/tables"
)

// manifest says what an edition was made from, so that two can be compared.
type manifest struct {
	Program string `json:"program"`
	Version string `json:"version"`
	Title   string `json:"title"`
	Edition int    `json:"edition"`
	Period  string `json:"period,omitempty"`
	Grid    string `json:"grid"`
	Unit    string `json:"unit"` // of the normals, and how it was told
	Soil    string `json:"soil"`

	Calibration string `json:"calibration,omitempty"`

	Inputs  []inputFile      `json:"inputs"`
	Windows []windowManifest `json:"windows"`
	Notes   []string         `json:"notes"`
}

type inputFile struct {
	Name   string `json:"name"`
	Bytes  int64  `json:"bytes"`
	SHA256 string `json:"sha256"`
}

type windowManifest struct {
	ID        string             `json:"id"`
	Title     string             `json:"title"`
	Threshold float64            `json:"threshold_c"`
	Starts    float64            `json:"starts_c"`
	Direction crossing.Direction `json:"direction"`
	HalfLife  float64            `json:"half_life_days"`
	Q10       float64            `json:"q10"`
	Reference float64            `json:"reference_c"`
	Ahead     float64            `json:"ahead_days"`
	Floor     float64            `json:"worth_floor"`
	WeeksKm2  map[string]float64 `json:"weeks_km2"` // by the week's first date
	OtherKm2  map[string]float64 `json:"other_km2"` // by reason
	Expected  float64            `json:"expected_error_days,omitempty"`
	BeyondKm2 float64            `json:"beyond_calibration_km2"`
}

func newManifest(r *recipe.Recipe, in *inputs, fields []*weeks.Field, recipePath string) (manifest, error) {
	m := manifest{
		Program: publish.Program, Version: version, Title: r.Title, Edition: r.Edition, Period: r.Normals.Period,
		Grid: in.normals.Grid().String(), Unit: in.unit, Soil: measures(r), Notes: in.notes,
	}
	if in.offsets != nil {
		m.Calibration = r.Soil.Calibration
	}
	if in.trained != nil {
		m.Calibration += fmt.Sprintf(": %d stations, %v", in.trained.Stations(), in.trained.Covariance)
	}
	if m.Notes == nil {
		m.Notes = []string{}
	}
	recipeFile, err := hashed(recipePath)
	if err != nil {
		return m, err
	}
	recipeFile.Name = "(recipe)"
	m.Inputs = append(m.Inputs, recipeFile)
	for _, name := range in.files {
		f, err := hashed(in.path(name))
		if err != nil {
			return m, err
		}
		f.Name = name
		m.Inputs = append(m.Inputs, f)
	}
	for _, f := range fields {
		m.Windows = append(m.Windows, newWindowManifest(f))
	}
	return m, nil
}

func newWindowManifest(f *weeks.Field) windowManifest {
	w := f.Window
	out := windowManifest{
		ID: w.ID, Title: w.Title, Threshold: tables.Round(float64(w.Trigger.Level), 4), Starts: tables.Round(float64(w.Starts.Level), 4),
		Direction: w.Trigger.Direction, HalfLife: w.Treatment.HalfLife, Q10: w.Treatment.Q10, Reference: tables.Round(float64(w.Treatment.Reference), 4),
		Ahead: w.AheadDays, Floor: w.WorthFloor,
		WeeksKm2: map[string]float64{}, OtherKm2: map[string]float64{},
		Expected: tables.Round(f.Expected(), 1), BeyondKm2: tables.Round(f.Beyond(), 0),
	}
	for week, km2 := range f.Histogram() {
		if km2 > 0 {
			out.WeeksKm2[season.Week(week).Begin().ISO()] = tables.Round(km2, 1)
		}
	}
	for reason, km2 := range f.AreaOf() {
		if why := crossing.Reason(reason); km2 > 0 && !why.HasDay() {
			out.OtherKm2[why.String()] = tables.Round(km2, 1)
		}
	}
	return out
}

func hashed(path string) (inputFile, error) {
	f, err := os.Open(path)
	if err != nil {
		return inputFile{}, err
	}
	defer f.Close()
	sum := sha256.New()
	n, err := io.Copy(sum, f)
	if err != nil {
		return inputFile{}, fmt.Errorf("%s: %w", path, err)
	}
	return inputFile{Bytes: n, SHA256: hex.EncodeToString(sum.Sum(nil))}, nil
}

func writeManifest(root *os.Root, m manifest) error {
	text, err := json.MarshalIndent(m, "", "  ")
	if err != nil {
		return fmt.Errorf("manifest: %w", err)
	}
	return root.WriteFile(publish.Marker, append(text, '\n'), 0o644)
}
