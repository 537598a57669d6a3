package render_test

import (
	"bytes"
	"fmt"
	"image/png"

	"weekband/render"
)

// A map of an invented island, 900 pixels wide.
func Example() {
	atlas, err := render.NewAtlas(merrow.territory(), 900)
	if err != nil {
		fmt.Println(err)
		return
	}
	page, err := atlas.Bands(merrow.bandMap(8))
	if err != nil {
		fmt.Println(err)
		return
	}
	var out bytes.Buffer
	if err := page.PNG(&out, 2); err != nil {
		fmt.Println(err)
		return
	}
	size, _ := png.DecodeConfig(&out)
	fmt.Println(size.Width, "pixels wide,", len(page.Layout.Dropped), "names left out")
	// Output: 1800 pixels wide, 0 names left out
}
