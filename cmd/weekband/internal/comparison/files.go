package comparison

import (
	"context"
	"encoding/json"
	"io"
	"os"

	"weekband/cmd/weekband/internal/output"
	"weekband/cmd/weekband/internal/publish"
	"weekband/grid/source/geotiff"
	"weekband/render/tables"
)

// Names of files within the folder of a comparison. The first marks the folder
// as one.
const (
	comparisonFile = "comparison.json"
	paragraphFile  = "paragraph.txt"
	summaryFile    = "summary.txt"
	shiftsFile     = "regions.csv"
)

// Publish writes the folder of a comparison.
func (c *Comparison) Publish(ctx context.Context, dir string) (err error) {
	staging, err := publish.BeginMarked(dir, comparisonFile)
	if err != nil {
		return err
	}
	defer func() { err = staging.End(err) }()
	if err := staging.Spare(c.older.dir, c.newer.dir); err != nil {
		return err
	}
	if err := c.writeFiles(ctx, staging.Root()); err != nil {
		return err
	}
	return staging.Commit(ctx)
}

func (c *Comparison) writeFiles(ctx context.Context, root *os.Root) error {
	if err := c.writeTexts(root); err != nil {
		return err
	}
	if err := c.writeGrids(root); err != nil {
		return err
	}
	return c.writeMaps(ctx, root)
}

// writeTexts writes what is read: the reply, the texts and the table.
func (c *Comparison) writeTexts(root *os.Root) error {
	text, err := json.MarshalIndent(c.Reply(), "", "  ")
	if err != nil {
		return err
	}
	for _, f := range []struct{ name, text string }{
		{comparisonFile, string(text) + "\n"}, {summaryFile, c.Summary()}, {paragraphFile, c.paragraph()},
	} {
		if err := publish.Create(root, f.name, func(w io.Writer) error { _, err := io.WriteString(w, f.text); return err }); err != nil {
			return err
		}
	}
	var list []tables.WindowShifts
	for i := range c.windows {
		list = append(list, tables.WindowShifts{Window: c.windows[i].after.ID, Rows: c.windows[i].rows})
	}
	return publish.Create(root, shiftsFile, func(w io.Writer) error { return tables.ShiftsCSV(w, list) })
}

// writeGrids writes the shift of every cell of every window.
func (c *Comparison) writeGrids(root *os.Root) error {
	for i := range c.windows {
		w := &c.windows[i]
		err := publish.Create(root, w.after.ID+".tif", func(out io.Writer) error {
			return output.WriteGrid(out, w.field.Days, func(v float32) float32 { return v }, geotiff.WriteOptions{
				Names: []string{"days_later"}, Unit: "day", Description: "by how many days the typical crossing comes later; negative is earlier",
			})
		})
		if err != nil {
			return err
		}
	}
	return nil
}

// writeMaps draws the windows in which anything moved.
func (c *Comparison) writeMaps(ctx context.Context, root *os.Root) error {
	if c.same() {
		return nil
	}
	atlas, err := c.shiftAtlas()
	if err != nil {
		return err
	}
	for i := range c.windows {
		if err := ctx.Err(); err != nil {
			return err
		}
		if w := &c.windows[i]; !w.same() {
			if err := c.drawShift(root, atlas, w); err != nil {
				return err
			}
		}
	}
	return nil
}
