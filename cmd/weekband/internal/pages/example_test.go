package pages_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"

	"weekband/cmd/weekband/internal/atlas"
	"weekband/cmd/weekband/internal/output"
	"weekband/cmd/weekband/internal/pages"
	"weekband/cmd/weekband/internal/skerry"
)

// The pages of an edition whose pictures were not drawn: what they tell needs none.
func ExampleWrite() {
	path, remove := skerry.Recipe()
	defer remove()
	ctx := context.Background()
	s, err := skerry.Survey(ctx, path)
	if err != nil {
		fmt.Println(err)
		return
	}
	defer s.Inputs.Close()
	dir := filepath.Join(filepath.Dir(path), "out")
	if err := os.Mkdir(dir, 0o755); err != nil {
		fmt.Println(err)
		return
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		fmt.Println(err)
		return
	}
	defer root.Close()
	if err := s.Write(root); err != nil { // the index of lookups is among it
		fmt.Println(err)
		return
	}
	album := atlas.Album{Windows: make([]atlas.Pictures, len(s.Windows)), Slugs: output.Slugs(s.Inputs.Areas)}
	if err := pages.Write(ctx, root, s.Recipe, s.Inputs, s.Windows, s.Findings.Rows, album, true); err != nil {
		fmt.Println(err)
		return
	}
	found, _ := filepath.Glob(filepath.Join(dir, "*.html"))
	for _, name := range found {
		fmt.Println(filepath.Base(name))
	}
	// Output:
	// embed.html
	// index.html
	// lookup.html
}
