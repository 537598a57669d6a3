package skerry

import (
	"context"
	"os"
	"path/filepath"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/output"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/cmd/weekband/internal/survey"
	"weekband/cmd/weekband/internal/tracing"
)

// Surveyed is what a recipe comes to before anything is written.
type Surveyed struct {
	Recipe   *recipe.Recipe
	Inputs   *inputs.Set
	Findings *survey.Findings
	Windows  []tracing.Window
}

// Survey works a recipe out: that of the island, or what a test made of it. Whoever
// asks closes the inputs.
func Survey(ctx context.Context, path string) (*Surveyed, error) {
	r, err := recipe.Load(path)
	if err != nil {
		return nil, err
	}
	order := survey.Order{Recipe: r, Path: path}
	spare := func(...string) error { return nil }
	in, err := survey.Open(ctx, order, spare, nil)
	if err != nil {
		return nil, err
	}
	found, err := survey.Take(ctx, order, in, nil, nil)
	if err != nil {
		in.Close()
		return nil, err
	}
	windows, err := tracing.Trace(ctx, found.Fields, r.Maps, tracing.DetailOf(r, in), nil)
	if err != nil {
		in.Close()
		return nil, err
	}
	return &Surveyed{r, in, found, windows}, nil
}

// Write writes what of an edition is neither picture nor page under a root.
func (s *Surveyed) Write(root *os.Root) error {
	if _, err := output.WriteTables(root, s.Recipe.Language, s.Findings.Rows, s.Findings.Fields, false); err != nil {
		return err
	}
	if err := output.WriteData(root, s.Inputs, s.Windows, true); err != nil {
		return err
	}
	if err := output.WriteLookup(root, s.Recipe, s.Inputs, s.Findings.Fields, s.Findings.Covers); err != nil {
		return err
	}
	if err := output.WriteCalendars(root, s.Recipe, s.Inputs.Areas, s.Findings.Rows); err != nil {
		return err
	}
	return output.WriteManifest(root, output.NewManifest(s.Recipe, s.Inputs, s.Findings.Figures))
}

// Build builds the edition of a recipe without pictures and pages into a folder,
// which it makes.
func Build(ctx context.Context, path, out string) error {
	s, err := Survey(ctx, path)
	if err != nil {
		return err
	}
	defer s.Inputs.Close()
	if err := os.MkdirAll(out, 0o755); err != nil {
		return err
	}
	root, err := os.OpenRoot(out)
	if err != nil {
		return err
	}
	defer root.Close()
	return s.Write(root)
}

// Recipe writes the island into a temporary folder and returns the path of its
// recipe and what removes the folder. It panics on errors: an example has nobody
// to tell.
func Recipe() (path string, remove func()) {
	dir, err := os.MkdirTemp("", "skerry-")
	if err != nil {
		panic(err)
	}
	path, err = Write(dir)
	if err != nil {
		panic(err)
	}
	return path, func() { os.RemoveAll(dir) }
}

// Edition is Recipe with an edition built, in a folder out beside the recipe.
func Edition() (out, recipe string, remove func()) {
	recipe, remove = Recipe()
	out = filepath.Join(filepath.Dir(recipe), "out")
	if err := Build(context.Background(), recipe, out); err != nil {
		panic(err)
	}
	return out, recipe, remove
}
