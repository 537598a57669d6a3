package comparison

import (
	"context"
	"fmt"

	"weekband/cmd/weekband/internal/cause"
	"weekband/grid"
	"weekband/grid/shift"
	"weekband/regions/shifts"
	"weekband/regions/zonal"
)

// Comparison is what moved between two editions, or two windows of one.
type Comparison struct {
	older, newer *builtEdition
	windows      []comparedWindow
	causes       []cause.Cause
	Notes        []string
}

// comparedWindow is what moved in one window.
type comparedWindow struct {
	windowPair
	field *shift.Field
	sum   shift.Sum
	rows  []shifts.Row
}

// Between opens the editions in two folders, the older first, and compares
// them: the windows with two ids, one of each edition, or without ids each with
// its own. Without a newer one it compares two windows of the older.
func Between(ctx context.Context, olderDir, newerDir string, ids []string) (*Comparison, error) {
	one := newerDir == ""
	older, err := openBuilt(olderDir, one)
	if err != nil {
		return nil, err
	}
	newer := older
	if !one {
		if newer, err = openBuilt(newerDir, true); err != nil {
			return nil, err
		}
	}
	pairs, notes, err := paired(older, newer, ids)
	if err != nil {
		return nil, err
	}
	return newComparison(ctx, older, newer, pairs, notes)
}

// newComparison compares all pairs.
func newComparison(ctx context.Context, older, newer *builtEdition, pairs []windowPair, notes []string) (*Comparison, error) {
	c := &Comparison{older: older, newer: newer}
	c.Notes = append(append(c.Notes, older.notes...), notes...)
	var ids [][2]string
	for _, p := range pairs {
		ids = append(ids, [2]string{p.before.ID, p.after.ID})
	}
	c.causes = cause.Between(&older.made, &newer.made, ids)
	var covers []zonal.Coverage
	for i, p := range pairs {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		f, err := c.shifted(p, i == 0)
		if err != nil {
			return nil, err
		}
		if i == 0 || !covered(covers, f.Grid()) {
			covers = zonal.CoverAll(newer.areas, f.Grid())
		}
		c.windows = append(c.windows, comparedWindow{
			windowPair: p, field: f, sum: f.Sum(),
			rows: shifts.Pair(f, newer.areas, covers, older.linesOf(p.before.ID), newer.linesOf(p.after.ID)),
		})
	}
	return c, nil
}

// covered reports whether covers are of a grid.
func covered(covers []zonal.Coverage, g grid.Grid) bool {
	return len(covers) == 0 || covers[0].Grid.Matches(g)
}

// shifted returns how the crossing of a pair moved, on the finer of their
// grids; note says whether to note that they differ.
func (c *Comparison) shifted(p windowPair, note bool) (*shift.Field, error) {
	before, err := c.older.layer(p.before.ID)
	if err != nil {
		return nil, err
	}
	after, err := c.newer.layer(p.after.ID)
	if err != nil {
		return nil, err
	}
	a, b := before.Day.Grid(), after.Day.Grid()
	g := shift.Finer(a, b)
	if note && !a.Matches(b) {
		c.Notes = append(c.Notes, fmt.Sprintf("the grids differ (%v; now %v): each of the smaller cells is compared with the cell of the other edition under its centre, so part of a shift comes from the size or place of the cells", a, b))
	}
	return shift.Between(before.Onto(g), after.Onto(g))
}

// twoWindows reports whether two windows of one edition are compared.
func (c *Comparison) twoWindows() bool { return c.older == c.newer }

// same reports whether nothing moved in any window, nor in any region's table.
func (c *Comparison) same() bool {
	for i := range c.windows {
		if !c.windows[i].same() {
			return false
		}
	}
	return true
}

// same reports whether every cell and every region has what it had.
func (w *comparedWindow) same() bool {
	if !w.sum.Same() {
		return false
	}
	for i := range w.rows {
		r := &w.rows[i]
		if r.Before == nil || r.After == nil || !r.Before.Alike(r.After) {
			return false
		}
	}
	return true
}
