package atlas

import (
	"bufio"
	"io"
	"os"

	"weekband/cmd/weekband/internal/phrase"
	"weekband/cmd/weekband/internal/publish"
	"weekband/grid/abreast"
	"weekband/grid/weeks"
	"weekband/regions/report"
	"weekband/render"
	"weekband/render/press"
	"weekband/render/site"
)

// mainPicture draws a window's map in all formats, the same page in each.
func (s *studio) mainPicture(f *weeks.Field, m render.BandMap, rows []report.Row) (picture site.Picture, err error) {
	page, err := s.large.Bands(m)
	if err != nil {
		return picture, err
	}
	id := f.Window.ID
	d := press.Description{
		Title: s.lang.Sentences.Titled(m.Title, f.Window.Title),
		Desc:  phrase.Shown(s.lang, f, phrase.Measures(s.recipe), rows),
		Lang:  s.lang.Tag,
	}
	err = abreast.AtOnce(
		func() (err error) { picture, err = s.savePrint(page.Page, mapFile(id)); return err },
		func() error { return s.encode(VectorFile(id), func(w io.Writer) error { return page.SVG(w, d) }) },
		func() error {
			return s.encode(PrintFile(id), func(w io.Writer) error { return page.PDF(w, s.recipe.Paper, d) })
		},
	)
	return picture, err
}

// encode writes a picture of the edition.
func (s *studio) encode(name string, write func(io.Writer) error) error {
	defer s.in.Say.Did(1)
	return CreatePicture(s.root, name, write)
}

// CreatePicture is publish.Create for encoders that make many small writes.
func CreatePicture(root *os.Root, name string, write func(io.Writer) error) error {
	return publish.Create(root, name, func(w io.Writer) error {
		out := bufio.NewWriterSize(w, 1<<16)
		if err := write(out); err != nil {
			return err
		}
		return out.Flush()
	})
}
