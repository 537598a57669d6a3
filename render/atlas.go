package render

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"sync"

	"github.com/paulmach/orb"

	"weekband/grid"
	"weekband/render/carto"
	"weekband/render/plane"
	"weekband/render/press"
)

// Atlas makes the maps of one territory at one page width. It projects the
// outlines and places the names once, for as many maps as are asked of it. It
// may be used by several goroutines at a time.
type Atlas struct {
	Territory
	width, unit float64
	bounds      carto.Bounds // of what is shown, m
	insets      []*Atlas
	mu          sync.Mutex
	scenes      map[sceneKey]*scene
}

type sceneKey struct {
	frame plane.Rect
	unit  float64
	week  plane.Pixel
	names bool
	plain bool // with insets, but without a word
}

// NewAtlas returns the atlas of a territory with pages width layout pixels
// wide. It returns an error when the width is not from 320 to 6000, or when
// the territory or one of its insets has neither regions nor an extent.
func NewAtlas(t Territory, width int) (*Atlas, error) {
	if err := press.CheckWidth(width); err != nil {
		return nil, err
	}
	box := t.extent()
	if !(box.West < box.East && box.South < box.North) {
		return nil, errors.New("render: the territory has neither regions nor an extent, so there is nothing to show; give outlines")
	}
	t.Language = t.Language.Or()
	if t.Projection == nil {
		t.Projection = carto.Choose(box)
	}
	a := &Atlas{Territory: t, width: float64(width), unit: press.UnitOf(float64(width)), scenes: map[sceneKey]*scene{}}
	a.bounds = carto.Extent(t.Projection, box)
	if t.Extent == (grid.Box{}) {
		a.bounds = t.outlines()
	}
	if !(a.bounds.Width() > 0 && a.bounds.Height() > 0) {
		return nil, fmt.Errorf("render: %v does not show the box %v", t.Projection, box)
	}
	for _, i := range t.Insets {
		i.Language = t.Language
		if i.Terrain == nil {
			i.Terrain = t.Terrain
		}
		if len(i.Insets) > 0 {
			return nil, fmt.Errorf("render: the inset %q has insets; list them in the territory", i.Title)
		}
		i.Regions = slices.Clone(i.Regions)
		for k := range i.Regions {
			if i.Regions[k].Name == i.Title { // it stands over the map
				i.Regions[k].Name = ""
			}
		}
		sub, err := NewAtlas(i.Territory, width)
		if err != nil {
			return nil, fmt.Errorf("inset %q: %w", i.Title, err)
		}
		a.insets = append(a.insets, sub)
	}
	return a, nil
}

// blank returns a page with nothing on it.
func (a *Atlas) blank(width, height float64, grey bool) *Map {
	return &Map{Page: press.NewPage(width, height, grey, a.Keeper)}
}

// extent is the box to show: the one asked for, or that of the regions.
func (t Territory) extent() grid.Box {
	if t.Extent != (grid.Box{}) || len(t.Regions) == 0 {
		return t.Extent
	}
	box := grid.Box{West: math.Inf(1), South: math.Inf(1), East: math.Inf(-1), North: math.Inf(-1)}
	for _, r := range t.Regions {
		if len(r.Shape) == 0 {
			continue
		}
		b := r.Shape.Bound()
		box.West, box.East = min(box.West, b.Min[0]), max(box.East, b.Max[0])
		box.South, box.North = min(box.South, b.Min[1]), max(box.North, b.Max[1])
	}
	return box
}

// outlines returns the bounds of the regions on the map. Of long rings it
// looks at some two thousand points; the frame's margin covers the rest.
func (t Territory) outlines() carto.Bounds {
	b := carto.NoBounds
	for _, r := range t.Regions {
		for _, polygon := range r.Shape {
			for _, ring := range polygon {
				for i := 0; i < len(ring); i += len(ring)/2000 + 1 {
					b = b.With(t.Projection.Forward(position(ring[i])))
				}
			}
		}
	}
	return b
}

func position(p orb.Point) grid.LonLat { return grid.LonLat{Lon: p[0], Lat: p[1]} }

// fit returns the view that shows the territory in a frame with a margin.
func (a *Atlas) fit(frame plane.Rect, margin float64) view {
	inner := frame.Grow(-margin)
	return view{
		projection: a.Projection,
		screen:     carto.Fit(a.bounds, inner.TopLeft(), plane.Pixel{X: inner.Right, Y: inner.Bottom}),
	}
}

// scene returns the territory in a frame, from the shelf when it is there.
func (a *Atlas) scene(k sceneKey) *scene {
	a.mu.Lock()
	defer a.mu.Unlock()
	s := a.scenes[k]
	if s == nil {
		if k.plain {
			s = plainScene(a, k.frame, k.unit)
		} else {
			s = newScene(a, k.frame, k.unit, k.week, k.names)
		}
		a.scenes[k] = s
	}
	return s
}
