package render

import (
	"fmt"

	"github.com/paulmach/orb"

	"weekband/grid"
	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/render/carto"
	"weekband/render/looks"
	"weekband/render/press"
	"weekband/render/wording"
)

// Territory is what all maps of one build share. Shapes are in degrees,
// longitude first, as of RFC 7946.
type Territory struct {
	Projection carto.Projection // carto.Choose(Extent) when nil
	Extent     grid.Box         // what the map shows; the bounds of the regions when zero
	Regions    []Region
	Borders    []orb.LineString // lines between regions; the outlines of Regions when both are nil
	Coast      []orb.LineString // outer lines
	Places     []Place
	Terrain    *grid.Raster[float32] // elevation, m, for the relief of band maps; nil for none
	Insets     []Inset
	Language   *wording.Language // of the words on all pages; English when nil. Insets have that of the whole
	Keeper     press.Keeper      // of finished pictures; nil: each is drawn whenever it is asked for
}

// Inset is a far-away part of a territory that is shown by itself, as a small
// map in a free corner of the frame or below it, in a projection of its own.
// It has no insets, and its ground should not be in the Regions of the whole
// unless it is to be shown twice; then its extent is outlined on the main map.
// Without a Terrain it has that of the whole.
type Inset struct {
	Title string
	Territory
}

// Region is a named area. Nothing is painted outside the regions.
type Region struct {
	Name  string
	Shape orb.MultiPolygon
}

// Place is a town to label. Lower ranks are labelled first; 1 is the first.
type Place struct {
	Name string
	At   grid.LonLat
	Rank int
}

// BandMap is a shaded map of the weeks in which something happens.
type BandMap struct {
	press.Caption
	Heading string // of the legend; the words of a typical week when empty
	Bands   []Band // from the earliest to the latest, areas apart from each other
	// Before and After count bands that other maps of the same scale show and
	// this one does not, so that a week has one colour on all of them.
	Before, After int
	Undated       []Undated    // ground without a week, painted over the bands
	Uncertain     Overlay      // ground whose week is less sure than elsewhere
	Scheme        looks.Scheme // which colours the weeks have
	Grey          bool         // for copiers: greys and patterns instead of colours
}

// Band is all ground with its week in [From, To).
type Band struct {
	From, To season.Day
	Label    string // its dates, "Mar 12–18"
	Shape    orb.MultiPolygon
	Share    float64 // of the territory's area, 0 to 1
}

// Undated is ground that has no week, and why.
type Undated struct {
	Reason Reason
	Label  string // for the legend; the reason's words when empty
	Shape  orb.MultiPolygon
	Share  float64 // of the territory's area, 0 to 1
}

// Overlay is ground marked over the bands.
type Overlay struct {
	Label string // for the legend; words for a week less sure when empty
	Shape orb.MultiPolygon
	Share float64 // of the territory's area, 0 to 1
}

// Reason says why ground has no week.
type Reason uint8

const (
	Never  Reason = iota // the threshold is never reached
	Always               // it is always passed
	Flat                 // passed too slowly to tell a week
	NoData
)

// String returns the words of an English legend.
func (r Reason) String() string { return r.in(wording.English()) }

// in returns the words of the legend in a language.
func (r Reason) in(lang *wording.Language) string {
	l := &lang.Legend
	return [...]string{Never: l.Never, Always: l.Always, Flat: l.Flat, NoData: l.NoData}[r]
}

// StatusMap is one frame of a series: what one week is good for, everywhere.
type StatusMap struct {
	press.Caption
	Week    string       // the big label, "Mar 12–18"
	Areas   []StatusArea // apart from each other
	Undated []Undated
	Grey    bool
}

// StatusArea is all ground with one status.
type StatusArea struct {
	Status status.Status
	Shape  orb.MultiPolygon
	Share  float64 // of the territory's area, 0 to 1
}

// check returns an error unless the bands rise.
func (m BandMap) check() error {
	if m.Before < 0 || m.After < 0 {
		return fmt.Errorf("render: %d bands before and %d after those of a map; want none or more", m.Before, m.After)
	}
	for i := 1; i < len(m.Bands); i++ {
		if a, b := m.Bands[i-1], m.Bands[i]; b.From < a.To {
			return fmt.Errorf("render: band %q begins on day %g, before band %q ends on day %g; bands must rise and not overlap", b.Label, float64(b.From), a.Label, float64(a.To))
		}
	}
	return nil
}
