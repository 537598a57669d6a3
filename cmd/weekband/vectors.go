package main

import (
	"bufio"
	"io"
	"os"

	"weekband/grid/weeks"
	"weekband/regions/report"
	"weekband/render"
	"weekband/render/site"
)

func vectorFile(window string) string { return "maps/" + window + ".svg" }

func printFile(window string) string { return "maps/" + window + ".pdf" }

// mainPicture draws a window's map in all formats, the same page in each.
func (s *studio) mainPicture(f *weeks.Field, m render.BandMap, rows []report.Row) (picture site.Picture, err error) {
	page, err := s.large.Bands(m)
	if err != nil {
		return picture, err
	}
	id := f.Window.ID
	d := render.Description{
		Title: s.lang.Sentences.Titled(m.Title, f.Window.Title),
		Desc:  shown(s.lang, f, measures(s.recipe), rows),
		Lang:  s.lang.Tag,
	}
	err = atOnce(
		func() (err error) { picture, err = s.savePrint(page, mapFile(id)); return err },
		func() error { return s.encode(vectorFile(id), func(w io.Writer) error { return page.SVG(w, d) }) },
		func() error {
			return s.encode(printFile(id), func(w io.Writer) error { return page.PDF(w, s.recipe.Paper, d) })
		},
	)
	return picture, err
}

// encode writes a picture of the edition.
func (s *studio) encode(name string, write func(io.Writer) error) error {
	defer s.in.say.did(1)
	return createPicture(s.root, name, write)
}

// createPicture is create for encoders that make many small writes.
func createPicture(root *os.Root, name string, write func(io.Writer) error) error {
	return create(root, name, func(w io.Writer) error {
		out := bufio.NewWriterSize(w, 1<<16)
		if err := write(out); err != nil {
			return err
		}
		return out.Flush()
	})
}
