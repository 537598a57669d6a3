package render

import (
	"cmp"
	"math"
	"slices"

	"weekband/grid"
	"weekband/render/canvas"
	"weekband/render/lettering"
	"weekband/render/plane"
)

// slanted is how far north may differ from up, in radians, before a map tells:
// twenty degrees. On maps of usual extents north is up in the middle and the
// meridians show the rest; an arrow would add nothing. On one of a polar cap,
// or of a continent in high latitudes, north is another way from place to
// place: a single arrow would be wrong at most of them, so one stands on each
// side, pointing north where it stands.
const slanted = 20 * math.Pi / 180

// north returns the direction of north at a place on the page, in radians
// clockwise from up; ok is false where the map shows no ground.
func (v view) north(at plane.Pixel) (angle float64, ok bool) {
	const step = 0.01 // degrees
	p, ok := v.projection.Inverse(v.screen.Point(at))
	if !ok {
		return 0, false
	}
	south := p
	if p.Lat+step <= 90 {
		p.Lat += step
	} else {
		south.Lat -= step
	}
	a, b := v.screen.Pixel(v.projection.Forward(south)), v.screen.Pixel(v.projection.Forward(grid.LonLat{Lon: p.Lon, Lat: p.Lat}))
	return math.Atan2(b.X-a.X, a.Y-b.Y), true
}

// mostSlanted returns how far north differs from up in a frame, at most.
func (v view) mostSlanted(frame plane.Rect) float64 {
	const parts = 8
	most := 0.0
	for i := range parts + 1 {
		for j := range parts + 1 {
			angle, ok := v.north(plane.Pixel{X: frame.Left + frame.Width()*float64(i)/parts, Y: frame.Top + frame.Height()*float64(j)/parts})
			if ok {
				most = max(most, math.Abs(angle))
			}
		}
	}
	return most
}

// arrow is a mark that points north where it stands.
type arrow struct {
	shaft, head *plane.Path
	letter      canvas.Text
}

// arrows returns the marks of a map on which north slants, on free ground
// nearest to the middles of its left and right edges, and keeps their room.
func (s *scene) arrows(p *lettering.Placer, font canvas.Font) []arrow {
	if s.mostSlanted(s.frame) < slanted {
		return nil
	}
	size := plane.Pixel{X: 3.2 * font.Size, Y: 3.2 * font.Size}
	var out []arrow
	for _, x := range [...]float64{s.frame.Left, s.frame.Right} {
		home := plane.Pixel{X: x, Y: s.frame.Center().Y}
		boxes := p.Along(size)
		slices.SortStableFunc(boxes, func(a, b plane.Rect) int { return cmp.Compare(far(a, home), far(b, home)) })
		for _, box := range boxes {
			angle, ok := s.north(box.Center())
			if ok && math.Abs(box.Center().X-x) < s.frame.Width()/3 && p.Free(box) && p.OverLand(box) == 0 {
				out = append(out, newArrow(box, angle, font, s.lang.Map.North))
				p.Keep(box)
				break
			}
		}
	}
	return out
}

// newArrow draws a mark in a box: the letter beyond the tip.
func newArrow(box plane.Rect, angle float64, font canvas.Font, letter string) arrow {
	sin, cos := plane.SinCos(angle)
	c, u := box.Center(), font.Size
	at := func(forward, right float64) plane.Pixel {
		return plane.Pixel{X: c.X + float64(u*(float64(forward*sin)+float64(right*cos))), Y: c.Y + float64(u*(float64(right*sin)-float64(forward*cos)))}
	}
	a := arrow{shaft: &plane.Path{}, head: &plane.Path{}}
	a.shaft.Add(at(-1.3, 0), at(0, 0))
	a.head.AddRing(at(0.4, 0), at(-0.4, 0.32), at(-0.2, 0), at(-0.4, -0.32))
	a.letter = canvas.Text{At: at(0.95, 0), Anchor: canvas.Middle, String: letter, Font: font, Color: canvas.LesserInk}
	a.letter.At.Y += float64(0.36 * font.Size) // the middle of a capital
	return a
}
