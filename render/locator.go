package render

import (
	"fmt"
	"math"
	"strings"

	"github.com/paulmach/orb"

	"weekband/render/plane"
)

// Locators makes the small maps of where each region lies, as path data for
// the SVG of a page: an overview of the whole territory and a near view of the
// region among its neighbours. Coordinates are pixels of the small maps,
// rounded to tenths. It may be used by several goroutines at a time.
type Locators struct {
	// Width and Height are those of the overview.
	Width, Height float64
	// Boxes are the frames of far-away parts that stand by themselves on it.
	Boxes []plane.Rect

	regions []Region
	scene   *scene
	land    string
	paths   []string
	nearIndex
}

// Overview is one region on the overview of the territory.
type Overview struct {
	Path string  // its outline, "" when nothing of it is large enough to draw
	Ring *Circle // around a region too small to see, nil for others
}

// Circle is a circle in pixels.
type Circle struct{ X, Y, R float64 }

const (
	locatorUnit  = 6    // px, which measures the insets of an overview
	locatorSlack = 3    // tenths of a pixel
	crumb        = 0.25 // px², under which an island is no part of the land
	eyeful       = 9    // px, under which a region is hard to see
	leastRing    = 7    // px
)

// NewLocators returns the small maps of regions of the atlas's territory, with
// overviews width pixels wide, 120 to 1200. The shapes are those of whole
// regions, with the parts that the territory shows in insets. It returns an
// error for another width and when there are no regions.
func (a *Atlas) NewLocators(regions []Region, width int) (*Locators, error) {
	if width < 120 || width > 1200 {
		return nil, fmt.Errorf("render: an overview %d px wide; want 120 to 1200", width)
	}
	if len(regions) == 0 {
		return nil, fmt.Errorf("render: small maps of no region; give the regions of the territory")
	}
	w := float64(width)
	frame := plane.Rect{Right: w, Bottom: math.Round(w * a.frameAspect())}
	s := a.scene(sceneKey{frame: frame, unit: locatorUnit, plain: true})
	l := &Locators{Width: w, Height: math.Ceil(s.bottom), regions: regions, scene: s, nearIndex: newNearIndex(regions)}
	for _, i := range s.insets {
		l.Boxes = append(l.Boxes, i.box)
	}
	outlines := make([]*plane.Path, len(regions))
	for i, r := range regions {
		outlines[i] = s.outlineIn(r.Shape)
	}
	m := plane.NewMesh(outlines, locatorSlack)
	for _, p := range m.Paths() {
		l.paths = append(l.paths, p.SVG())
	}
	l.land = m.Union().Without(crumb).SVG()
	return l, nil
}

// Land returns the outline of all regions on the overview as path data.
// Borders between them are left out, and islands that no screen would show.
func (l *Locators) Land() string { return l.land }

// LandSVG returns the overview without any region marked as a picture by
// itself, so that many pages can share it. Its one colour shows on light and
// dark pages.
func (l *Locators) LandSVG() []byte {
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %g %g" width="%[1]g" height="%[2]g">`, l.Width, l.Height)
	const ink = "#7d8891" // 3:1 on white and on near black, WCAG 2.2 SC 1.4.11
	fmt.Fprintf(&b, `<g fill="%s" fill-opacity=".3" stroke="%[1]s" stroke-width=".8" stroke-linejoin="round"><path d="%s"/></g>`, ink, l.land)
	for _, r := range l.Boxes {
		fmt.Fprintf(&b, `<path fill="none" stroke="%s" stroke-width=".8" d="%s"/>`, ink, plane.RectPath(r).SVG())
	}
	b.WriteString("</svg>\n")
	return []byte(b.String())
}

// Overview returns where region i lies in the territory. A region that the
// territory does not show has neither path nor ring.
func (l *Locators) Overview(i int) Overview {
	o := Overview{Path: l.paths[i]}
	if b, small := l.scene.small(l.regions[i].Shape); small {
		c := b.Center()
		o.Ring = &Circle{X: inTenth(c.X), Y: inTenth(c.Y), R: inTenth(max(leastRing, math.Hypot(b.Width(), b.Height())/2+3))}
	}
	return o
}

// small returns the bounds of the largest part of a shape that a plain scene
// shows, and whether all of it is too small to see. A part that vanishes has
// bounds without extent. A shape shown nowhere is not small.
func (s *scene) small(shape orb.MultiPolygon) (plane.Rect, bool) {
	outline := s.outlineIn(shape)
	if !outline.Empty() {
		b := outline.Largest()
		return b, b.Width() < eyeful && b.Height() < eyeful && outline.Area() < eyeful*eyeful/2
	}
	for _, polygon := range shape {
		c := polygon.Bound().Center()
		v, frame := s.view, s.frame
		for _, i := range s.insets {
			if edgeOf(i.held).Contains(c) {
				v, frame = i.scene.view, i.scene.frame
			}
		}
		if at := v.at(c); frame.Contains(at) {
			return plane.Rect{Left: at.X, Right: at.X, Top: at.Y, Bottom: at.Y}, true
		}
	}
	return plane.Rect{}, false
}

func inTenth(v float64) float64 { return math.Round(v*10) / 10 }
