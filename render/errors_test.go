package render_test

import (
	"io"
	"strings"
	"testing"

	"weekband/grid"
	"weekband/render"
	"weekband/render/looks"
)

func TestRefusals(t *testing.T) {
	_, narrow := render.NewAtlas(merrow.territory(), 100)
	_, empty := render.NewAtlas(render.Territory{}, 900)
	a := must(render.NewAtlas(merrow.territory(), 900))
	m := merrow.bandMap(3)
	m.Bands[0], m.Bands[1] = m.Bands[1], m.Bands[0]
	_, unsorted := a.Bands(m)
	scale := must(a.Bands(merrow.bandMap(3))).PNG(io.Discard, 11)
	for want, err := range map[string]error{
		"320 to 6000": narrow, "give outlines": empty, "must rise": unsorted, "0.5 to 10": scale,
	} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error %v, want one with %q", err, want)
		}
	}
}

// Without regions an extent is enough: all in the frame is ground.
func TestExtentOnly(t *testing.T) {
	a := must(render.NewAtlas(render.Territory{Extent: grid.Box{West: -34, South: 43, East: -25, North: 47.6}}, 600))
	page := must(a.Bands(merrow.bandMap(4)))
	checkLayout(t, "no regions", page.Layout)
	im := picture(t, page.Page, 1)
	v := alwaysTo + (1-alwaysTo)*0.375
	if got := merrow.ground(page, im, 1, 0.5, v+0.03); !near(got, looks.NewPalette(4)[1]) {
		t.Errorf("the second band is %v", got)
	}
}
