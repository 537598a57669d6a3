package recipe

import (
	"net/url"

	"weekband/grid"
	"weekband/grid/season"
	"weekband/render/looks"
	"weekband/render/press"
	"weekband/render/wording"
)

// Looks says what pictures and pages are made and how they look.
type Looks struct {
	Maps    []Map         // besides the typical week, in the order of AllMaps
	WorthOf []season.Week // the weeks of Worth; none: the middle of on time
	Relief  bool          // shade the maps by the slopes of the terrain, if there is one
	Insets  []Inset
	Size    int // width of the large maps, layout pixels
	Palette looks.Scheme
	Logo    string          // PNG or JPEG, "" for none
	Paper   press.PaperSize // of files to print
	Address string          // of the published pages, "" for none

	AllHandouts bool              // every region gets one, however many there are
	Language    *wording.Language // of pictures and pages, with its order of dates
}

// Inset is a far-away part that maps show by itself.
type Inset struct {
	Title string
	Box   grid.Box
}

func looksOf(root *mapping) Looks {
	l := Looks{
		Maps:     mapsOf(root),
		Insets:   insets(root),
		Size:     root.whole("size", DefaultSize, LeastSize, MostSize),
		Logo:     root.text("logo", ""),
		Address:  address(root),
		Language: language(root),
	}
	l.WorthOf = worthOf(root, l.Maps)
	palettes := map[string]func(){}
	for _, p := range looks.Schemes {
		palettes[p.String()] = func() { l.Palette = p }
	}
	root.choice("palette", looks.Scheme(0).String(), palettes)
	root.choice("paper", "letter", map[string]func(){
		"letter": func() { l.Paper = press.Letter }, "a4": func() { l.Paper = press.A4 },
	})
	root.choice("handouts", "some", map[string]func(){"some": func() {}, "all": func() { l.AllHandouts = true }})
	root.choice("relief", "on", map[string]func(){"on": func() { l.Relief = true }, "off": func() {}})
	return l
}

// language reads the language of pictures and pages and the order of its
// dates.
func language(m *mapping) *wording.Language {
	var order wording.Order
	choices := map[string]func(){}
	for _, o := range wording.Orders {
		choices[o.String()] = func() { order = o }
	}
	m.choice("dates", order.String(), choices)
	l, err := wording.Of(m.text("language", ""), order)
	if err != nil {
		m.problem("language", "%v", err)
	}
	return l
}

// address reads the address of the published pages.
func address(m *mapping) string {
	text := m.text("address", "")
	u, err := url.Parse(text)
	if text != "" && (err != nil || u.Scheme != "https" && u.Scheme != "http" || u.Host == "") {
		m.problem("address", "address %q: want that of the published pages, such as https://soil.example/", text)
	}
	return text
}

// insets reads the insets, whose boxes must lie apart.
func insets(root *mapping) []Inset {
	var list []Inset
	for _, m := range root.mappings("insets") {
		inset := Inset{Title: m.title()}
		edges := m.texts("box")
		if edges == nil {
			m.missing("box", "[west, south, east, north] in degrees, such as [-83, 24.3, -79.8, 25.2]")
		} else if b := box(m, edges); b != nil {
			inset.Box = *b
			for _, o := range list {
				if o.Box.Overlaps(inset.Box) {
					m.problem("box", "the box of %q overlaps that of %q; every piece of ground may be in one inset only", inset.Title, o.Title)
				}
			}
		}
		list = append(list, inset)
		m.finish()
	}
	if len(list) > MostInsets {
		root.problem("insets", "%d insets; want at most %d", len(list), MostInsets)
	}
	return list
}
