package survey

import (
	"cmp"
	"context"
	"os"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/output"
	"weekband/cmd/weekband/internal/progress"
	"weekband/grid/weeks"
	"weekband/regions/report"
	"weekband/regions/zonal"
)

// mostHeld is how many cells an edition holds at a time, some 60 bytes each and
// to each window. A larger grid goes by as a stream, and what is drawn is drawn
// from a sample of mostDrawn of its cells: more than any picture can show.
const (
	mostHeld  = 4_000_000
	mostDrawn = 2_500_000
)

// Findings is what an edition tells of all cells.
type Findings struct {
	Fields  []*weeks.Field   // of each window: all cells, or a sample to draw from; none of a stream
	Covers  []zonal.Coverage // of the regions on the grid of the fields
	Rows    []report.Row     // of each window, one a region
	Figures []output.Figures // of each window, of all cells
	Sampled bool             // what holds all cells was written as they went by
}

// Take works out all cells of an order, or takes them from its parts or kept
// work, and what regions make of them. Of a grid larger than may be held it
// writes the crossing grids and the lookups under root, and gives the fields of
// a sample. What the user should know it adds to the notes of the inputs.
func Take(ctx context.Context, o Order, in *inputs.Set, root *os.Root, say *progress.Teller) (*Findings, error) {
	say.Stage("%s %v", o.working(), in.Normals.Grid())
	if in.Normals.Grid().Cells() > cmp.Or(o.Hold, mostHeld) && !o.AllCells {
		return lookAtSample(ctx, o, in, root, say)
	}
	fields, err := compute(ctx, o, in)
	if err != nil {
		return nil, err
	}
	say.Notes(in.Notes)
	say.Stage("summing up %d regions", len(in.Areas.Regions))
	covers := zonal.CoverAll(in.Areas, in.Normals.Grid())
	in.NoteOverlaps(covers)
	return &Findings{Fields: fields, Covers: covers, Rows: report.Build(fields, in.Areas, covers), Figures: output.FiguresOf(fields)}, nil
}
