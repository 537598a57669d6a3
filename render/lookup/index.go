package lookup

import (
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"path"

	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/grid/units"
	"weekband/grid/worth"
	"weekband/render/wording"
)

// format is the version of the files; a reader refuses another.
const format = 4

// IndexFile is where the index lies in an edition's folder.
const IndexFile = "data/lookup.json"

// Index describes an edition to whoever looks something up in it.
type Index struct {
	Format   int           `json:"format"`
	Title    string        `json:"title"`
	Edition  int           `json:"edition"`
	Period   string        `json:"period,omitempty"`
	Credits  string        `json:"credits,omitempty"`
	Language string        `json:"language,omitempty"` // of its words, a tag of BCP 47; English when empty
	Dates    wording.Order `json:"dates,omitempty"`    // how its words write dates; left out for month-first
	Measures string        `json:"measures"`           // what the threshold is compared with, "soil at 4 in"
	Depth    float64       `json:"depth_m,omitempty"`  // of the soil mapped, m; 0 when it is no soil or not known
	Sure     string        `json:"sure"`               // how sure the days are, a sentence
	Cautions []string      `json:"cautions"`
	Grid     Extent        `json:"grid"`
	Side     int           `json:"side"`   // cells on a side of a block
	Shards   []string      `json:"shards"` // for every row of blocks from the north a digit a block from the west, 1 where it has a shard
	PerDay   int           `json:"per_day"`
	Scales   Scales        `json:"scales"`
	Years    Years         `json:"years"`
	Windows  []Window      `json:"windows"`
	Regions  string        `json:"regions,omitempty"` // file with the regions; empty when there are none
	Places   []PlaceShard  `json:"places"`            // sorted by key
	Known    int           `json:"places_known"`      // places in all
}

// Extent is a grid: its outer edges in degrees and its counts.
type Extent struct {
	West  float64 `json:"west"`
	South float64 `json:"south"`
	East  float64 `json:"east"`
	North float64 `json:"north"`
	Rows  int     `json:"rows"`
	Cols  int     `json:"cols"`
}

// Window is one treatment season.
type Window struct {
	ID        string             `json:"id"`
	Title     string             `json:"title"`
	Direction crossing.Direction `json:"direction"`
	Threshold units.Celsius      `json:"threshold_c"`
	Starts    units.Celsius      `json:"starts_c"`
	HalfLife  float64            `json:"half_life_days"`
	Q10       float64            `json:"q10"`
	Reference units.Celsius      `json:"reference_c"` // soil in which the half-life holds
	Ahead     float64            `json:"ahead_days"`
	Floor     float64            `json:"worth_floor"`
	Below     float64            `json:"second_below"` // strength at which a second application is due
	Until     float64            `json:"second_until"` // share of the weeds from which none is
	Seeding   *Seeding           `json:"seeding,omitempty"`
	Cut       season.Day         `json:"cut"` // crossing days lie in [cut, cut+365)
}

// Seeding is grass seed brought out on a day of every year.
type Seeding struct {
	Day      season.Day `json:"day"`
	Interval float64    `json:"interval_days"` // from an application to it
	Young    float64    `json:"young_days"`    // after it in which nothing may be applied
}

// window returns the window as the core knows it.
func (w *Window) window() status.Window {
	out := status.Window{
		ID: w.ID, Title: w.Title,
		Trigger:   crossing.Trigger{Level: w.Threshold, Direction: w.Direction},
		Starts:    crossing.Trigger{Level: w.Starts, Direction: w.Direction},
		Treatment: worth.Treatment{HalfLife: w.HalfLife, Q10: w.Q10, Reference: w.Reference},
		AheadDays: w.Ahead, WorthFloor: w.Floor, Second: worth.SecondRule{Below: w.Below, Until: w.Until},
	}
	if s := w.Seeding; s != nil {
		out.Seeding = &worth.Overseeding{Day: s.Day, Interval: s.Interval, Young: s.Young}
	}
	return out
}

// windowOf returns a window as the index holds it.
func windowOf(w *status.Window) Window {
	out := Window{
		ID: w.ID, Title: w.Title, Direction: w.Trigger.Direction, Threshold: w.Trigger.Level, Starts: w.Starts.Level,
		HalfLife: w.Treatment.HalfLife, Q10: w.Treatment.Q10, Reference: w.Treatment.Reference,
		Ahead: w.AheadDays, Floor: w.WorthFloor, Below: w.Second.Below, Until: w.Second.Until,
	}
	if s := w.Seeding; s != nil {
		out.Seeding = &Seeding{Day: s.Day, Interval: s.Interval, Young: s.Young}
	}
	return out
}

func (e Extent) grid() (grid.Grid, error) {
	return grid.New(grid.Box{West: e.West, South: e.South, East: e.East, North: e.North}, e.Rows, e.Cols)
}

func writeIndex(root *os.Root, x *Index) error {
	text, err := json.MarshalIndent(x, "", " ")
	if err != nil {
		return fmt.Errorf("lookup index: %w", err)
	}
	if err := root.MkdirAll(path.Dir(IndexFile), 0o755); err != nil {
		return fmt.Errorf("lookup index: %w", err)
	}
	return root.WriteFile(IndexFile, append(text, '\n'), 0o644)
}

func readIndex(fsys fs.FS) (*Index, error) {
	text, err := fs.ReadFile(fsys, IndexFile)
	if err != nil {
		return nil, fmt.Errorf("this is no edition that weekband built, or one of build --stream, which writes no lookups: %w", err)
	}
	var x Index
	if err := json.Unmarshal(text, &x); err != nil {
		return nil, fmt.Errorf("%s: %w; build the edition again", IndexFile, err)
	}
	if x.Format > format {
		return nil, fmt.Errorf("%s: format %d, of a newer weekband; this one reads %d: look at it with the newer one, or build the edition again", IndexFile, x.Format, format)
	}
	if x.Format != format {
		return nil, fmt.Errorf("%s: format %d, this weekband reads %d; build the edition again", IndexFile, x.Format, format)
	}
	if y := x.Years.Stride; x.Side < 1 || x.PerDay < 1 || y < 0 || y > 0 && (x.Side%y != 0 || x.Years.PerDegree < 1) {
		return nil, fmt.Errorf("%s: blocks of %d cells, %d parts of a day, years of %d cells; build the edition again", IndexFile, x.Side, x.PerDay, y)
	}
	return &x, nil
}
