package output

import (
	"encoding/json"
	"fmt"
	"os"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/phrase"
	"weekband/cmd/weekband/internal/publish"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid/classes"
	"weekband/grid/crossing"
	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/grid/weeks"
	"weekband/render/tables"
)

// Manifest says what an edition was made from, so that two can be compared.
type Manifest struct {
	Program string `json:"program"`
	Version string `json:"version"`
	Title   string `json:"title"`
	Edition int    `json:"edition"`
	Period  string `json:"period,omitempty"`
	Grid    string `json:"grid"`
	Unit    string `json:"unit"` // of the normals, and how it was told
	Soil    string `json:"soil"`

	Calibration string `json:"calibration,omitempty"`

	Recipe  map[string]string `json:"recipe"` // as resolved: recipe.Settings
	Inputs  []inputs.File     `json:"inputs"`
	Windows []WindowManifest  `json:"windows"`
	Notes   []string          `json:"notes"` // all that the user was told
}

// WindowManifest is what a manifest says of a window. Temperatures are in °C,
// areas in km², days of the year in [1, 366).
type WindowManifest struct {
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
	Median    *DayManifest       `json:"median"`    // of the ground that crosses, null without any
	P10       *DayManifest       `json:"p10"`
	P90       *DayManifest       `json:"p90"`
	Expected  float64            `json:"expected_error_days,omitempty"`
	BeyondKm2 float64            `json:"beyond_calibration_km2"`
}

// DayManifest is a day of the year, as a number and as a date.
type DayManifest struct {
	Day  float64 `json:"day"`
	Date string  `json:"date"`
}

// NewManifest says what an edition is made from; all has the figures of its
// windows, in their order.
func NewManifest(r *recipe.Recipe, in *inputs.Set, all []Figures) Manifest {
	m := Manifest{
		Program: publish.Program, Version: publish.Version, Title: r.Title, Edition: r.Edition, Period: r.Normals.Period,
		Grid: in.Normals.Grid().String(), Unit: in.Unit, Soil: phrase.Measures(r), Notes: in.Notes,
		Recipe: r.Settings(), Inputs: in.Files,
	}
	if in.Offsets != nil {
		m.Calibration = r.Soil.Calibration
	}
	if in.Trained != nil {
		m.Calibration += fmt.Sprintf(": %d stations, %v", in.Trained.Stations(), in.Trained.Covariance)
	}
	if m.Notes == nil {
		m.Notes = []string{}
	}
	for i, f := range all {
		m.Windows = append(m.Windows, NewWindowManifest(&r.Windows[i], f))
	}
	return m
}

// Figures sum up a window over the whole grid.
type Figures struct {
	WeeksKm2  [season.Weeks + 1]float64      // by the week of the crossing
	OtherKm2  [len(crossing.Reasons)]float64 // by reason
	Quantiles []float64                      // 10, 50 and 90 % of the ground that crosses, unwrapped; nil without any
	Expected  float64                        // error of the typical day, days; 0 when not known
	BeyondKm2 float64                        // beyond the reach of calibration stations
}

// LandKm2 returns the area of all ground with normals.
func (f *Figures) LandKm2() (sum float64) {
	for reason, km2 := range f.OtherKm2 {
		if crossing.Reason(reason) != crossing.NoData {
			sum += km2
		}
	}
	return sum
}

// FiguresOf sums up every field.
func FiguresOf(fields []*weeks.Field) (all []Figures) {
	for _, f := range fields {
		all = append(all, Figures{
			WeeksKm2: f.Histogram(), OtherKm2: f.AreaOf(), Quantiles: classes.Quantiles(f.Day, 0.1, 0.5, 0.9),
			Expected: f.Expected(), BeyondKm2: f.Beyond(),
		})
	}
	return all
}

// NewWindowManifest says what a manifest tells of a window.
func NewWindowManifest(w *status.Window, f Figures) WindowManifest {
	out := WindowManifest{
		ID: w.ID, Title: w.Title, Threshold: tables.Round(float64(w.Trigger.Level), 4), Starts: tables.Round(float64(w.Starts.Level), 4),
		Direction: w.Trigger.Direction, HalfLife: w.Treatment.HalfLife, Q10: w.Treatment.Q10, Reference: tables.Round(float64(w.Treatment.Reference), 4),
		Ahead: w.AheadDays, Floor: w.WorthFloor,
		WeeksKm2: map[string]float64{}, OtherKm2: map[string]float64{},
		Expected: tables.Round(f.Expected, 1), BeyondKm2: tables.Round(f.BeyondKm2, 0),
	}
	for week, km2 := range f.WeeksKm2 {
		if km2 > 0 {
			out.WeeksKm2[season.Week(week).Begin().ISO()] = tables.Round(km2, 1)
		}
	}
	for reason, km2 := range f.OtherKm2 {
		if why := crossing.Reason(reason); km2 > 0 && !why.HasDay() {
			out.OtherKm2[why.String()] = tables.Round(km2, 1)
		}
	}
	if q := f.Quantiles; q != nil {
		out.P10, out.Median, out.P90 = manifestDay(q[0]), manifestDay(q[1]), manifestDay(q[2])
	}
	return out
}

func manifestDay(unwrapped float64) *DayManifest {
	day := season.Day(unwrapped).In()
	return &DayManifest{Day: tables.Round(float64(day), 2), Date: day.ISO()}
}

// WriteManifest writes the manifest, by which an edition is known, last of its
// files.
func WriteManifest(root *os.Root, m Manifest) error {
	text, err := json.MarshalIndent(m, "", "  ")
	if err != nil {
		return fmt.Errorf("manifest: %w", err)
	}
	return root.WriteFile(publish.Marker, append(text, '\n'), 0o644)
}
