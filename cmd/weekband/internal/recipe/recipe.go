package recipe

import (
	"fmt"
	"net/url"
	"os"
	"strconv"

	"weekband/grid"
	"weekband/grid/season"
	"weekband/grid/soil"
	"weekband/grid/status"
	"weekband/grid/units"
	"weekband/render"
	"weekband/render/wording"
)

// Recipe describes one run. File names are as written: relative ones are
// relative to the folder of the recipe.
type Recipe struct {
	Title   string
	Edition int // the year the maps are published for
	Normals Normals
	Soil    Soil
	Windows []status.Window
	Regions []Regions
	Terrain string // elevation in m, "" for none
	Relief  bool   // shade the maps by the slopes of the terrain, if there is one
	Insets  []Inset
	Grid    Grid
	Places  string        // CSV file, "" for none
	Maps    []Map         // besides the typical week, in the order of AllMaps
	WorthOf []season.Week // the weeks of Worth; none: the middle of on time
	Credits string
	Address string // of the published pages, "" for none
	Logo    string // PNG or JPEG, "" for none
	Size    int    // width of the large maps, layout pixels
	Palette render.Season

	Language *wording.Language // of pictures and pages, with its order of dates

	AllHandouts bool             // every region gets one, however many there are
	Paper       render.PaperSize // of files to print
}

// Normals names the climate normals.
type Normals struct {
	Files    []string // patterns with * and ? allowed; none when there are Sites
	Sites    string   // CSV of stations, "" when there are Files
	Values   string   // CSV of their monthly values
	SD       []string // year-to-year standard deviation, same layers; none: the default spread
	Variable string   // in NetCDF files that hold several
	Measures Measures
	Unit     units.Scale // 0: found out from the data
	Period   string      // as printed, "1991-2020"
}

// Grid is the wanted grid. The zero value is the input's own.
type Grid struct {
	Cell units.CellSize // zero: that of the input, or of the terrain for sites
	Box  *grid.Box      // nil: that of the input, or of the terrain for sites
}

// Measures says what the normals are temperatures of.
type Measures uint8

const (
	Air      Measures = iota // 2 m above ground
	SoilTemp                 // soil at the wanted depth
)

// String returns the word a recipe uses.
func (m Measures) String() string {
	if m == SoilTemp {
		return "soil"
	}
	return "air"
}

// Soil says how soil follows from air.
type Soil struct {
	None   bool         // map the air temperature itself
	Depth  units.Metres // default 4 in
	Stated bool         // the recipe says the depth

	Calibration string // US, Uncalibrated, or the file of a table
}

// Words for a calibration that is no file.
const (
	US           = "us"
	Uncalibrated = "none"
)

// Regions names one file of polygons.
type Regions struct {
	File   string
	Object string // in TopoJSON files that hold several
	ID     string // property that holds the id; "" for the feature's own
	Name   string // property that holds the name; "" for the usual ones
}

// Inset is a far-away part that maps show by itself.
type Inset struct {
	Title string
	Box   grid.Box
}

// MostInsets is how many insets a recipe may have: more leave a map no room.
const MostInsets = 4

// Widths of the large maps in layout pixels.
const (
	DefaultSize = 1200
	LeastSize   = 800
	MostSize    = 2400
)

// Load reads the recipe in a file. The error is a Problems when the text can
// be read but is wrong.
func Load(path string) (*Recipe, error) {
	text, err := os.ReadFile(path)
	if err != nil {
		return nil, fmt.Errorf("recipe: %w", err)
	}
	return Decode(text, path)
}

// Decode reads a recipe from its text; name stands in messages.
func Decode(text []byte, name string) (*Recipe, error) {
	return decode(text, &document{name: name, keys: map[string]bool{}})
}

func decode(text []byte, doc *document) (*Recipe, error) {
	root := doc.parse(text)
	if root == nil {
		return nil, doc.err()
	}
	r := &Recipe{
		Title:   root.requiredText("title"),
		Edition: edition(root),
		Normals: normals(root.requiredMapping("normals")),
		Soil:    soilOf(root),
		Windows: windows(root),
		Regions: regions(root),
		Terrain: root.text("terrain", ""),
		Grid:    wanted(root.mapping("grid")),
		Places:  root.text("places", ""),
		Maps:    mapsOf(root),
		Credits: root.text("credits", ""),
		Address: address(root),
		Logo:    root.text("logo", ""),
		Size:    root.whole("size", DefaultSize, LeastSize, MostSize),
	}
	palettes := map[string]func(){}
	for _, p := range render.Seasons {
		palettes[p.String()] = func() { r.Palette = p }
	}
	root.choice("palette", render.Season(0).String(), palettes)
	root.choice("handouts", "some", map[string]func(){"some": func() {}, "all": func() { r.AllHandouts = true }})
	root.choice("paper", "letter", map[string]func(){
		"letter": func() { r.Paper = render.Letter }, "a4": func() { r.Paper = render.A4 },
	})
	r.Language = language(root)
	r.Insets = insets(root)
	root.choice("relief", "on", map[string]func(){"on": func() { r.Relief = true }, "off": func() {}})
	r.WorthOf = worthOf(root, r.Maps)
	root.finish()
	if err := doc.err(); err != nil {
		return nil, err
	}
	return r, nil
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

func edition(m *mapping) int {
	text := m.requiredText("edition")
	year, err := strconv.Atoi(text)
	if text != "" && (err != nil || year < 1900 || year > 2999) {
		m.problem("edition", "edition %q: want a year such as 2027", text)
	}
	return year
}

func normals(m *mapping) Normals {
	if m == nil {
		return Normals{}
	}
	n := Normals{
		Files:    m.texts("files"),
		Sites:    m.text("sites", ""),
		Values:   m.text("values", ""),
		SD:       m.texts("sd"),
		Variable: m.text("variable", ""),
		Period:   m.text("period", ""),
	}
	switch {
	case len(n.Files) == 0 && n.Sites == "":
		m.missing("files", "one file name or a list of them; or sites and values, two tables of stations")
	case len(n.Files) > 0 && n.Sites != "":
		m.problem("sites", "both files and sites are given; normals come from one of them")
	case (n.Sites == "") != (n.Values == ""):
		m.problem("sites", "sites and values belong together: one lists the stations, the other their months")
	case n.Sites != "" && len(n.SD) > 0:
		m.problem("sd", "sd goes with files; stations have their standard deviation in the column std_c of values")
	}
	m.choice("measures", "air", map[string]func(){
		"air": func() {}, "soil": func() { n.Measures = SoilTemp },
	})
	if text := m.text("unit", "auto"); text != "auto" {
		scale, err := units.ParseScale(text)
		if err != nil {
			m.problem("unit", "unit %q: want auto, C, F, K, 0.1C or 0.1F", text)
		}
		n.Unit = scale
	}
	m.finish()
	return n
}

func wanted(m *mapping) Grid {
	if m == nil {
		return Grid{}
	}
	var g Grid
	if text := m.text("cell", ""); text != "" {
		size, err := units.ParseCellSize(text)
		if err != nil {
			m.problem("cell", "%v", err)
		}
		g.Cell = size
	}
	if edges := m.texts("box"); edges != nil {
		g.Box = box(m, edges)
	}
	m.finish()
	return g
}

// box reads the four edges of a box.
func box(m *mapping, edges []string) *grid.Box {
	const want = "want [west, south, east, north] in degrees, such as [-91, 37, -84, 42]"
	var v [4]float64
	if len(edges) != len(v) {
		m.problem("box", "box of %d numbers: %s", len(edges), want)
		return nil
	}
	for i, text := range edges {
		var err error
		if v[i], err = strconv.ParseFloat(text, 64); err != nil {
			m.problem("box", "box edge %q: %s", text, want)
			return nil
		}
	}
	b := grid.Box{West: v[0], South: v[1], East: v[2], North: v[3]}
	if _, err := grid.New(b, 1, 1); err != nil {
		m.problem("box", "box %v: %v; %s", b, err, want)
		return nil
	}
	return &b
}

func soilOf(root *mapping) Soil {
	s := Soil{Depth: soil.OffsetDepth, Calibration: US}
	if root.isText("soil") {
		if word := root.text("soil", ""); word != "none" {
			root.problem("soil", "soil %q: want none, or a mapping such as {depth: 4 in}", word)
		}
		s.None = true
		return s
	}
	m := root.mapping("soil")
	if m == nil {
		return s
	}
	if text := m.text("depth", ""); text != "" {
		depth, err := units.ParseDepth(text)
		if err != nil {
			m.problem("depth", "%v", err)
		}
		s.Depth, s.Stated = depth, true
	}
	s.Calibration = m.text("calibration", s.Calibration)
	m.finish()
	return s
}

// insets reads the insets, whose boxes must lie apart.
func insets(root *mapping) []Inset {
	var list []Inset
	for _, m := range root.mappings("insets") {
		inset := Inset{Title: m.requiredText("title")}
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

func regions(root *mapping) []Regions {
	var list []Regions
	for _, m := range root.mappings("regions") {
		list = append(list, Regions{
			File:   m.requiredText("file"),
			Object: m.text("object", ""),
			ID:     m.text("id", ""),
			Name:   m.text("name", ""),
		})
		m.finish()
	}
	return list
}
