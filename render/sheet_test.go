package render_test

import (
	"strings"
	"testing"

	"weekband/grid/season"
	"weekband/render"
	"weekband/render/plane"
	"weekband/render/press"
)

// A sheet holds every week once, in reading order.
func TestSheet(t *testing.T) {
	a := must(render.NewAtlas(merrow.territory(), 1200))
	for _, n := range []int{0, 1, 5, 16, 30} {
		frames := merrow.frames(n)
		l := a.Sheet(merrow.bandMap(1).Caption, frames).Layout
		var got []press.Box
		for _, b := range l.Boxes {
			if b.Kind == press.WeekLabel {
				got = append(got, b)
			}
			if strings.Contains(b.Text, "%") {
				t.Errorf("%d frames: one week's share %q in the legend of all", n, b.Text)
			}
			if !b.Within(plane.Rect{Right: l.Width, Bottom: l.Height}) {
				t.Errorf("%d frames: %q leaves the page", n, b.Text)
			}
		}
		if len(got) != n {
			t.Fatalf("%d weeks for %d frames", len(got), n)
		}
		for i := range got {
			if got[i].Text != frames[i].Week {
				t.Errorf("%d frames: week %d is %q, want %q", n, i, got[i].Text, frames[i].Week)
			}
			if i > 0 && !(got[i].Top > got[i-1].Top || got[i].Left > got[i-1].Right && got[i].Top == got[i-1].Top) {
				t.Errorf("%d frames: week %d does not follow week %d", n, i, i-1)
			}
		}
	}
}

// A sheet of a whole year fits upright on letter paper of 8.5 by 11 inches
// (ISO A4 is taller in proportion) with margins of half an inch, and all its
// words have 7 points there. Ground twice as tall as wide fits up to 47 weeks.
func TestSheetFitsAPage(t *testing.T) {
	const inches, tallest = 7.5, 10.0
	for _, c := range []struct {
		island island
		most   int
	}{{merrow, season.Weeks}, {skerry, 47}} {
		a := must(render.NewAtlas(c.island.territory(), 1200))
		for n := 1; n <= c.most; n += 1 + n/4 {
			l := a.Sheet(c.island.bandMap(1).Caption, c.island.frames(n)).Layout
			if high := l.Height / l.Width * inches; high > tallest {
				t.Errorf("%d frames of %v: %.1f inches high", n, c.island, high)
			}
			for _, b := range l.Boxes {
				if size := b.Height() / 1.15 / l.Width * inches * 72; size < 7 {
					t.Errorf("%d frames: %q is set in %.1f points", n, b.Text, size)
				}
			}
		}
	}
}
