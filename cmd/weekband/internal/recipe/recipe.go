package recipe

import (
	"strconv"
	"time"

	"weekband/grid"
	"weekband/grid/soil"
	"weekband/grid/status"
	"weekband/grid/units"
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
	Grid    Grid
	Places  string // CSV file, "" for none
	Credits string

	Published time.Time // 0:00 UTC of the day the edition goes out, zero when not said
	Earlier   []Earlier
	Looks

	Notes []string // what was repaired to read it
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
	Within string // property that holds what a region lies in; "" for none
}

// MostInsets is how many insets a recipe may have: more leave a map no room.
const MostInsets = 4

// Widths of the large maps in layout pixels.
const (
	DefaultSize = 1200
	LeastSize   = 800
	MostSize    = 2400
)

// Decode reads a recipe from its text; name stands in messages. A byte order
// mark, UTF-16 that has one, and other ends of lines are understood, with a
// note. The error is a Problems.
func Decode(text []byte, name string) (*Recipe, error) {
	return decode(text, &document{name: name, keys: map[string]bool{}})
}

func decode(text []byte, doc *document) (*Recipe, error) {
	text, notes := doc.plain(text)
	root := doc.parse(text)
	if root == nil {
		return nil, doc.err(nil)
	}
	r := &Recipe{
		Title:   root.title(),
		Edition: edition(root),
		Normals: normals(root.requiredMapping("normals")),
		Soil:    soilOf(root),
		Windows: windows(root),
		Regions: regions(root),
		Terrain: root.text("terrain", ""),
		Grid:    wanted(root.mapping("grid")),
		Places:  root.text("places", ""),
		Credits: root.text("credits", ""),
		Looks:   looksOf(root),

		Published: day(root, "published"),
	}
	r.Earlier = earlier(root, r.Edition, r.Published)
	r.Notes = notes
	root.finish()
	if err := doc.err(r); err != nil {
		return nil, err
	}
	return r, nil
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

func regions(root *mapping) []Regions {
	var list []Regions
	for _, m := range root.mappings("regions") {
		list = append(list, Regions{
			File:   m.requiredText("file"),
			Object: m.text("object", ""),
			ID:     m.text("id", ""),
			Name:   m.text("name", ""),
			Within: m.text("within", ""),
		})
		m.finish()
	}
	return list
}
