package comparison

import (
	"strconv"

	"weekband/cmd/weekband/internal/cause"
	"weekband/grid/season"
	"weekband/grid/shift"
	"weekband/grid/units"
	"weekband/regions/shifts"
	"weekband/render/tables"
)

// Reply is a comparison for programs. Days and weeks count how much
// later the newer is; negative is earlier.
type Reply struct {
	Older     editionReply  `json:"older"`
	Newer     editionReply  `json:"newer"`
	Same      bool          `json:"nothing_moved"`
	Causes    []cause.Cause `json:"causes"`
	Notes     []string      `json:"notes"`
	Windows   []WindowReply `json:"windows"`
	Paragraph string        `json:"paragraph"`
	Cautions  []string      `json:"cautions"`
}

type editionReply struct {
	Title       string `json:"title"`
	Edition     int    `json:"edition"`
	Period      string `json:"period,omitempty"`
	Version     string `json:"version"`
	Measures    string `json:"measures"`
	Calibration string `json:"calibration,omitempty"`
}

// WindowReply is what moved in one window.
type WindowReply struct {
	Before  windowReplyID      `json:"before"`
	After   windowReplyID      `json:"after"`
	Km2     float64            `json:"area_km2"` // with normals in either
	FateKm2 map[string]float64 `json:"fate_km2"`
	Days    *DaysReply         `json:"days_later,omitempty"`      // of the ground with a day in both
	Weeks   map[string]float64 `json:"weeks_later_km2,omitempty"` // of that ground, by weeks later
	Count   map[string]int     `json:"regions,omitempty"`         // by what became of their week
	Moved   []regionShiftReply `json:"regions_moved,omitempty"`   // those whose week is not the same
}

type windowReplyID struct {
	ID        string        `json:"id"`
	Title     string        `json:"title"`
	Direction string        `json:"direction"`
	Threshold units.Celsius `json:"threshold_c"`
}

// DaysReply is how many days later the ground crosses, by area.
type DaysReply struct {
	Least  float64 `json:"least"`
	P10    float64 `json:"p10"`
	Median float64 `json:"median"`
	P90    float64 `json:"p90"`
	Most   float64 `json:"most"`
}

type regionShiftReply struct {
	ID     string      `json:"id"`
	Name   string      `json:"name"`
	Change string      `json:"change"`
	Before season.Week `json:"week_before,omitempty"`
	After  season.Week `json:"week_after,omitempty"`
	Weeks  int         `json:"weeks_later"`
	Days   float64     `json:"days_later"` // of the middle of its ground
}

// fateNames are what became of ground, by shift.Fate, as JSON names it.
var fateNames = [len(shift.Fates)]string{
	shift.Moved: "day_in_both", shift.Gained: "gained", shift.Lost: "lost", shift.Undated: "no_day_in_either",
	shift.OnlyBefore: "only_older", shift.OnlyAfter: "only_newer",
}

// Reply returns the comparison for programs.
func (c *Comparison) Reply() Reply {
	r := Reply{
		Older: newEditionReply(&c.older.made), Newer: newEditionReply(&c.newer.made), Same: c.same(),
		Causes: append([]cause.Cause{}, c.causes...), Notes: append([]string{}, c.Notes...),
		Paragraph: c.paragraph(), Cautions: c.words().Sentences.Cautions,
	}
	for i := range c.windows {
		r.Windows = append(r.Windows, newWindowShiftReply(&c.windows[i]))
	}
	return r
}

func newEditionReply(m *cause.Manifest) editionReply {
	return editionReply{Title: m.Title, Edition: m.Edition, Period: m.Period, Version: m.Version, Measures: m.Soil, Calibration: m.Calibration}
}

func newWindowShiftReply(w *comparedWindow) WindowReply {
	s := &w.sum
	id := func(w cause.Window) windowReplyID {
		return windowReplyID{ID: w.ID, Title: w.Title, Direction: w.Direction.String(), Threshold: w.Threshold}
	}
	r := WindowReply{Before: id(w.before), After: id(w.after), Km2: tables.Round(s.Km2, 1), FateKm2: map[string]float64{}}
	for fate, km2 := range s.FateKm2 {
		if km2 > 0 {
			r.FateKm2[fateNames[fate]] = tables.Round(km2, 1)
		}
	}
	if s.FateKm2[shift.Moved] > 0 {
		r.Days = &DaysReply{Least: tables.Round(s.Earliest, 2), P10: tables.Round(s.P10, 2), Median: tables.Round(s.Median, 2), P90: tables.Round(s.P90, 2), Most: tables.Round(s.Latest, 2)}
		r.Weeks = map[string]float64{}
	}
	for i, km2 := range s.WeeksKm2 {
		if km2 > 0 {
			r.Weeks[strconv.Itoa(i-season.Weeks/2)] = tables.Round(km2, 1)
		}
	}
	if len(w.rows) > 0 {
		r.Count = map[string]int{}
	}
	for i := range w.rows {
		r.Count[w.rows[i].Change().String()]++
		if c := w.rows[i].Change(); c != shifts.Same && c != shifts.None {
			r.Moved = append(r.Moved, newRegionShiftReply(&w.rows[i]))
		}
	}
	return r
}

func newRegionShiftReply(row *shifts.Row) regionShiftReply {
	r := regionShiftReply{ID: row.ID, Name: row.Name, Change: row.Change().String(), Weeks: row.Weeks(), Days: tables.Round(row.Median, 1)}
	if row.Before.HasWeek() {
		r.Before = row.Before.Week
	}
	if row.After.HasWeek() {
		r.After = row.After.Week
	}
	return r
}
