package site

import (
	"bytes"
	"embed"
	"fmt"
	"html/template"
	"os"
	"path"
	"slices"
	"strings"

	"weekband/regions/places"
	"weekband/render/chart"
	"weekband/render/wording"
)

//go:embed pages
var files embed.FS

// templates are those of all pages, their dates in English until a Writer puts
// those of the edition in.
var templates = parsed()

func parsed() *template.Template {
	t := template.Must(template.New("").Funcs(functions(wording.English())).ParseFS(files, "pages/*.tmpl"))
	for _, c := range chart.Templates.Templates() {
		template.Must(t.AddParseTree(c.Name(), c.Tree.Copy()))
	}
	return t
}

// Writer writes the pages of one edition. Several goroutines may write pages of
// regions at the same time.
type Writer struct {
	root    *os.Root
	edition *Edition
	links   links
	tmpl    *template.Template
}

// NewWriter returns the writer of an edition's pages under root. It puts the
// edition's regions in the order of their names.
func NewWriter(root *os.Root, e Edition) (*Writer, error) {
	e.Language = e.Language.Or()
	var order []*Region
	for i := range e.Regions {
		order = append(order, &e.Regions[i])
	}
	e.Regions = slices.Clone(e.Regions)
	slices.SortStableFunc(e.Regions, func(a, b Region) int { return strings.Compare(places.Fold(a.Name), places.Fold(b.Name)) })
	t, err := templates.Clone()
	if err != nil {
		return nil, fmt.Errorf("pages: %w", err)
	}
	w := &Writer{root: root, edition: &e, tmpl: t.Funcs(functions(e.Language)), links: links{pages: map[string]string{}, order: order}}
	for i := range e.Regions {
		w.links.pages[e.Regions[i].ID] = e.Regions[i].Page()
	}
	for _, dir := range []string{"windows", "regions", "cards", "assets"} {
		if err := root.MkdirAll(dir, 0o755); err != nil {
			return nil, fmt.Errorf("pages: %w", err)
		}
	}
	return w, nil
}

// Write writes all pages but those of single regions, and the assets.
func (w *Writer) Write() error {
	if err := w.assets(); err != nil {
		return err
	}
	for _, v := range w.own() {
		if err := w.page(v); err != nil {
			return err
		}
	}
	return nil
}

// own lists the edition's own pages: the index, its lookup for frames, one a
// window, the pieces to copy, and the list of regions.
func (w *Writer) own() []*view {
	e := w.edition
	about := fmt.Sprintf("%s, %d", e.Title, e.Year)
	week := fmt.Sprintf("The typical week in which %s crosses the threshold, and the weeks ahead of time, on time and catching up", e.Measures)
	index := Head{Title: about, Description: week + ": look up your own place.", Index: e.Index, Structured: e.dataset(week)}
	if e.Card.File != "" {
		index.Image = &e.Card
	}
	bare := index
	bare.Bare, bare.Structured = true, ""
	list := []*view{w.view("index.tmpl", "index.html", index), w.view("lookup.tmpl", "lookup.html", bare)}
	for i := range e.Windows {
		win := &e.Windows[i]
		v := w.view("window.tmpl", win.Page(), Head{
			Title: win.Window.Title + ", " + about, Heading: win.Window.Title, Description: win.Lead, Image: index.Image, Charts: win.Chart.any(),
		})
		v.Window = win
		list = append(list, v)
	}
	list = append(list, w.view("embed.tmpl", "embed.html", Head{
		Title: "Show it on your own pages: " + about, Heading: "Show it on your own pages",
		Description: "Pieces of HTML that show a map, a region or a lookup of " + e.Title + " on another page.",
	}))
	if len(e.Regions) > 0 {
		list = append(list, w.view("regions.tmpl", "regions/index.html", Head{
			Title: "All regions: " + about, Heading: "All regions", Description: week + ", region by region.",
		}))
	}
	return list
}

// Region writes the page of a region and its card.
func (w *Writer) Region(r *RegionPage) error {
	e := w.edition
	h := Head{
		Title: fmt.Sprintf("%s: %s, %d", r.Name, e.Title, e.Year), Heading: r.Name, Charts: r.charts(),
		Description: r.describe(e),
	}
	if r.Card.File != "" {
		h.Image = &r.Card
	}
	v := w.view("region.tmpl", r.Page(), h)
	v.Region, v.Head.Structured = r, WebPage(PageFacts{
		File: r.Page(), Title: h.Title, Description: h.Description, Published: e.Published, Language: e.Language.Tag, Address: e.Address,
		Edition: e.Title, Home: "../index.html", Region: r.Name, Box: r.Box, Image: r.Card.File,
	})
	if err := w.page(v); err != nil {
		return err
	}
	h.Charts = false
	card := w.view("card.tmpl", r.CardPage(), h)
	card.Region = r
	return w.page(card)
}

// dataset describes the edition to machines.
func (e *Edition) dataset(about string) template.JS {
	files := slices.Clone(e.Files)
	for _, win := range e.Windows {
		files = append(files, win.Files...)
	}
	return Dataset(DatasetFacts{
		Title: e.Title, Description: about + ". " + e.Heed, Year: e.Year, Period: e.Period, Published: e.Published, Credits: e.Credits,
		Language: e.Language.Tag, Address: e.Address, Box: e.Box, Measured: e.Measured, Files: files,
	})
}

// Pages lists the files of the pages that stand by themselves, not in frames;
// "" for the index.
func (w *Writer) Pages() []string {
	var out []string
	for _, v := range w.own() {
		if !v.Head.Bare {
			out = append(out, strings.TrimSuffix(v.file, "index.html"))
		}
	}
	for i := range w.edition.Regions {
		out = append(out, w.edition.Regions[i].Page())
	}
	return out
}

// page writes the page of a view.
func (w *Writer) page(v *view) error {
	var b bytes.Buffer
	if err := w.tmpl.ExecuteTemplate(&b, v.template, v); err != nil {
		return fmt.Errorf("page %s: %w", v.file, err)
	}
	return w.file(v.file, b.Bytes())
}

func (w *Writer) file(name string, data []byte) error {
	if err := w.root.WriteFile(path.Clean(name), data, 0o644); err != nil {
		return fmt.Errorf("pages: %w", err)
	}
	return nil
}
