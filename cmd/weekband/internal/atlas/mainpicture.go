package atlas

import (
	"io"

	"weekband/cmd/weekband/internal/phrase"
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
