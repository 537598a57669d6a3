package site

import (
	"encoding/json"
	"fmt"
	"html"
	"html/template"
	"path"
	"strings"

	"weekband/render/wording"
)

// manyRegions is the number of regions past which the index links to their
// list in place of holding it, and tables of costs stay on the regions' pages.
const manyRegions = 100

// view is an edition as one page shows it: what a template is given.
type view struct {
	*Edition
	Head           Head
	Window         *Window     // of a window's page
	Region         *RegionPage // of a region's page and card
	template, file string      // of the page itself
	*links
}

// links is how pages find the regions'.
type links struct {
	pages map[string]string // files by id
	order []*Region         // as the edition gave them
}

// Head is what stands in the head of a page.
type Head struct {
	Title, Heading, Description string
	Trail                       bool // the page is not the index
	Charts                      bool // the page has charts
	Bare                        bool // the page is shown in a frame
	Index                       json.RawMessage
	Structured                  template.JS
	Image                       *Picture // for sharing
}

// Root is the way from the page to the edition's folder, "" or "../".
func (v *view) Root() string { return strings.Repeat("../", strings.Count(v.file, "/")) }

// Canonical is where the page is published.
func (v *view) Canonical() string { return v.at(strings.TrimSuffix(v.file, "index.html")) }

// at returns the address of a file, or its name when no address is known.
func (v *view) at(file string) string { return at(v.Address, file, file) }

// Link is the address of a file, "" when none is known.
func (v *view) Link(file string) string { return Under(v.Address, file) }

// ManyRegions reports whether the regions are too many for a table on a page
// that shows other things.
func (v *view) ManyRegions() bool { return len(v.Regions) > manyRegions }

// RegionPage is the file of the page of a region by its id.
func (v *view) RegionPage(id string) string { return v.pages[id] }

// choice is how dates and temperatures are written until the reader chooses.
type choice struct {
	Unit  string `json:"unit"`
	Order string `json:"order"`
}

// Choice returns the edition's: where months stand first people read degrees
// Fahrenheit, else Celsius.
func (v *view) Choice() choice {
	if v.Language.Order == wording.MonthFirst {
		return choice{"F", v.Language.Order.String()}
	}
	return choice{"C", v.Language.Order.String()}
}

// Settings is what the script of every page needs to know, as JSON.
func (v *view) Settings() (template.JS, error) {
	text, err := json.Marshal(struct {
		Root   string `json:"root"`
		Choice choice `json:"choice"`
		Names  any    `json:"names"`
	}{v.Root(), v.Choice(), v.Language.Forms()})
	return template.JS(text), err
}

// figure is a picture with another for narrow screens.
type figure struct {
	Root         string
	Wide, Narrow Picture
	Lazy         bool
}

// Figure puts a figure together; all but the first on a page load when they
// come near the screen.
func (v *view) Figure(wide, narrow Picture, nth int) figure {
	return figure{Root: v.Root(), Wide: wide, Narrow: narrow, Lazy: nth > 0}
}

// CardHeight is the height in CSS pixels of a frame that holds a region's
// card.
func (v *view) CardHeight() int { return 270 + 200*len(v.Windows) }

// FrameCode is the HTML with which another page shows a page of the edition
// in a frame.
func (v *view) FrameCode(page string, height int, title string) string {
	return fmt.Sprintf(`<iframe src="%s" title="%s" width="100%%" height="%d" loading="lazy"></iframe>`,
		html.EscapeString(v.at(page)), html.EscapeString(title), height)
}

// PictureCode is the HTML with which another page shows a window's map.
func (v *view) PictureCode(w Window) string {
	return fmt.Sprintf(`<a href="%s"><img src="%s" width="%d" height="%d" alt="%s" loading="lazy"></a>`,
		html.EscapeString(v.at("index.html")), html.EscapeString(v.at(w.Wide.File)), w.Wide.Width, w.Wide.Height, html.EscapeString(w.Wide.Alt))
}

// view returns the view of a page.
func (w *Writer) view(template, file string, h Head) *view {
	e := w.edition
	if h.Heading == "" {
		h.Heading = e.Title
	}
	h.Trail = path.Base(file) != "index.html" || path.Dir(file) != "."
	return &view{Edition: e, Head: h, template: template, file: file, links: &w.links}
}
