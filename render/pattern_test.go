package render

import (
	"math"
	"testing"
)

// Textures stay inside their shape and cover it evenly.
func TestTextures(t *testing.T) {
	shape := rectPath(Rect{Left: 10, Top: 20, Right: 210, Bottom: 170})
	for _, p := range []Pattern{Rising, Falling, Level, Upright, Dots, Wide} {
		tex := p.texture(13)
		marks := tex.linesIn(shape)
		if tex.dotted {
			for _, at := range tex.dotsIn(shape) {
				marks.Add(at, at)
			}
		}
		if !marks.Bounds().Within(Rect{Left: 10, Top: 20, Right: 210, Bottom: 170}.Grow(1e-9)) {
			t.Errorf("pattern %d reaches to %v", p, marks.Bounds())
		}
		length := 0.0
		for _, l := range marks.lines {
			if !tex.dotted {
				length += math.Hypot(l.points[0].X-l.points[1].X, l.points[0].Y-l.points[1].Y)
			}
		}
		got, want := length*tex.spacing, 200*150. // lines a spacing apart
		if tex.dotted {
			got = float64(len(marks.lines)) * tex.spacing * tex.spacing
		}
		if math.Abs(got/want-1) > 0.07 {
			t.Errorf("pattern %d covers %.0f px², want %.0f", p, got, want)
		}
	}
	if !Plain.texture(13).linesIn(&Path{}).Empty() {
		t.Error("an empty shape has a texture")
	}
}
