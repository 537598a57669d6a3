package lookup

import (
	"fmt"
	"io/fs"

	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/season"
	"weekband/grid/spread"
	"weekband/grid/status"
	"weekband/render/wording"
)

// Edition is an edition's folder opened for lookups.
type Edition struct {
	Index
	Words *wording.Language // as the edition was built with
	fsys  fs.FS
	grid  grid.Grid
}

// Open opens the edition in a folder. The error says so when the folder holds
// none, or one of another format.
func Open(fsys fs.FS) (*Edition, error) {
	x, err := readIndex(fsys)
	if err != nil {
		return nil, err
	}
	g, err := x.Grid.grid()
	if err != nil {
		return nil, fmt.Errorf("%s: %w; build the edition again", IndexFile, err)
	}
	words, err := wording.Of(x.Language, x.Dates)
	if err != nil {
		return nil, fmt.Errorf("%s: %w; build the edition again", IndexFile, err)
	}
	return &Edition{Index: *x, Words: words, fsys: fsys, grid: g}, nil
}

// Answer is what one window gives at a point. Days are unwrapped, as those of
// a week field are. Without a day in Reason the rest is zero.
type Answer struct {
	Window   status.Window
	Reason   crossing.Reason
	Day      season.Day // typical crossing
	Early    season.Day // of an early year, 10 %, the error of the typical day counted in
	Late     season.Day // of a late year, 90 %, likewise
	Spread   float64    // standard deviation from year to year, days
	Error    float64    // standard error of the typical day, days; 0 when not known
	Beyond   bool       // no calibration station is near
	Calendar status.Calendar
	months   *yearMeans // of the typical year, nil when not known
}

// At answers for the cell that holds p, one Answer a window. Outside the grid
// and where the grid has no normals the Reason is NoData.
func (e *Edition) At(p grid.LonLat) ([]Answer, error) {
	answers := make([]Answer, len(e.Windows))
	cell, ok, err := e.cellAt(p)
	if err != nil {
		return nil, err
	}
	for i := range e.Windows {
		answers[i].Window = e.Windows[i].window()
		if ok {
			answers[i] = answer(answers[i].Window, cell.windows[i])
			answers[i].months = cell.months
		}
	}
	return answers, nil
}

func answer(w status.Window, v value) Answer {
	a := Answer{Window: w, Reason: v.reason, Beyond: v.beyond}
	if !v.reason.HasDay() {
		return a
	}
	by := season.Day(spread.EarlyBy(spread.Together(v.spread, v.error)))
	a.Day, a.Spread, a.Error = season.Day(v.day), v.spread, v.error
	a.Early, a.Late = a.Day-by, a.Day+by
	a.Calendar = status.Calendar{
		AheadFrom:  season.Day(v.from - w.AheadDays),
		OntimeFrom: season.Day(v.from), OntimeTo: a.Day, CatchupTo: season.Day(v.to),
	}
	return a
}
