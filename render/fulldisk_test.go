package render_test

import (
	"errors"
	"os"
	"syscall"
	"testing"

	"weekband/render"
	"weekband/render/press"
)

// On a device without room (full(4)) every kind of picture reports an error,
// also where it is short enough to wait in a buffer until the end.
func TestFullDiskIsReported(t *testing.T) {
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		t.Skip(err)
	}
	defer full.Close()
	page := must(must(render.NewAtlas(merrow.territory(), 400)).Bands(merrow.bandMap(2)))
	series := must(press.NewSeries([]*press.Page{page.Page}, 1))
	for kind, err := range map[string]error{
		"PNG": page.PNG(full, 1), "ScreenPNG": page.ScreenPNG(full, 1), "PrintPNG": page.PrintPNG(full, press.Print{Width: 4, DPI: 100}),
		"SVG": page.SVG(full, described), "PDF": page.PDF(full, press.Letter, described),
		"GIF": series.GIF(full, step, hold), "frame": series.PNG(full, 0),
	} {
		if !errors.Is(err, syscall.ENOSPC) {
			t.Errorf("%s: %v", kind, err)
		}
	}
}
