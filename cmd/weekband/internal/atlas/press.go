package atlas

import (
	"io"
	"runtime"

	"weekband/cmd/weekband/internal/recipe"
	"weekband/cmd/weekband/internal/tracing"
	"weekband/render/press"
	"weekband/render/site"
)

// save writes a page as PNG.
func (s *studio) save(page *press.Page, name string, scale float64) (site.Picture, error) {
	return s.press(page, name, func(w io.Writer) error { return page.PNG(w, scale) })
}

// savePrint writes a page as PNG that says its size in print.
func (s *studio) savePrint(page *press.Page, name string) (site.Picture, error) {
	return s.press(page, name, Printed(page))
}

// Printed returns what writes a large map as PNG that says its size in print.
func Printed(page *press.Page) func(io.Writer) error {
	paper := press.Print{Width: page.Layout.Width * tracing.MapScale / printDPI, DPI: printDPI}
	return func(w io.Writer) error { return page.PrintPNG(w, paper) }
}

// saveScreen writes a page as PNG for a page of the site.
func (s *studio) saveScreen(page *press.Page, name string) (site.Picture, error) {
	return s.press(page, name, func(w io.Writer) error { return page.ScreenPNG(w, screenScale) })
}

// press writes the picture of a page when a press is free.
func (s *studio) press(page *press.Page, name string, write func(io.Writer) error) (site.Picture, error) {
	s.presses <- struct{}{}
	defer func() { <-s.presses }()
	picture := site.Picture{File: name, Width: int(page.Layout.Width), Height: int(page.Layout.Height)}
	return picture, s.encode(name, write)
}

// pressesFor returns how many pictures of maps of a size may be painted at a
// time: one a processor, six of the usual at most, fewer of larger ones, which
// take memory by the square of their width, some 500 MB each at 2400.
func pressesFor(size int) int {
	usual := float64(recipe.DefaultSize) / float64(size)
	return min(6, runtime.GOMAXPROCS(0), max(1, int(6*usual*usual)))
}
