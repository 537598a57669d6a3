package canvas

import (
	"math"
	"testing"

	"weekband/render/plane"
)

// Textures stay inside their shape and cover it evenly.
func TestTextures(t *testing.T) {
	shape := plane.RectPath(plane.Rect{Left: 10, Top: 20, Right: 210, Bottom: 170})
	for _, p := range []Pattern{Rising, Falling, Level, Upright, Dots, Wide} {
		tex := p.texture(13)
		marks := tex.Lines(shape)
		if tex.Dotted {
			for _, at := range tex.Dots(shape) {
				marks.Add(at, at)
			}
		}
		if !marks.Bounds().Within(plane.Rect{Left: 10, Top: 20, Right: 210, Bottom: 170}.Grow(1e-9)) {
			t.Errorf("pattern %d reaches to %v", p, marks.Bounds())
		}
		length := 0.0
		for _, l := range marks.Lines {
			if !tex.Dotted {
				length += math.Hypot(l.Points[0].X-l.Points[1].X, l.Points[0].Y-l.Points[1].Y)
			}
		}
		got, want := length*tex.Spacing, 200*150. // lines a spacing apart
		if tex.Dotted {
			got = float64(len(marks.Lines)) * tex.Spacing * tex.Spacing
		}
		if math.Abs(got/want-1) > 0.07 {
			t.Errorf("pattern %d covers %.0f px², want %.0f", p, got, want)
		}
	}
	if !Plain.texture(13).Lines(&plane.Path{}).Empty() {
		t.Error("an empty shape has a texture")
	}
}
