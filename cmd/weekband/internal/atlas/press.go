package atlas

import (
	"bufio"
	"io"
	"os"
	"runtime"

	"weekband/cmd/weekband/internal/publish"
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

// Printed returns what writes a large map as PNG that says its size in print, at
// 300 pixels an inch.
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

// encode writes a picture of the edition.
func (s *studio) encode(name string, write func(io.Writer) error) error {
	defer s.in.Say.Did(1)
	return CreatePicture(s.root, name, write)
}

// CreatePicture is publish.Create for encoders of pictures, which make many small
// writes.
func CreatePicture(root *os.Root, name string, write func(io.Writer) error) error {
	return publish.Create(root, name, func(w io.Writer) error {
		out := bufio.NewWriterSize(w, 1<<16)
		if err := write(out); err != nil {
			return err
		}
		return out.Flush()
	})
}

// sheetOfPaper writes a page to print as PDF.
func (s *studio) sheetOfPaper(page *press.Page, name string, d press.Description) error {
	return s.encode(name, func(w io.Writer) error { return page.PDF(w, s.recipe.Paper, d) })
}
