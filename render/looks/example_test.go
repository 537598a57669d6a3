package looks_test

import (
	"fmt"

	"weekband/render/canvas"
	"weekband/render/looks"
)

// Six bands of weeks darken from the earliest to the latest; in grey every
// other one has a pattern.
func Example() {
	grey := looks.Weeks(looks.Wheatnight, 6, true)
	for i, l := range looks.Weeks(looks.Wheatnight, 6, false) {
		light, _, _ := canvas.OKLChOf(l.Tone)
		fmt.Printf("%d: #%02x%02x%02x, lightness %.2f, patterned in grey %t\n", i+1, l.Tone.R, l.Tone.G, l.Tone.B, light, grey[i].Pattern != canvas.Plain)
	}
	// Output:
	// 1: #feedc5, lightness 0.95, patterned in grey false
	// 2: #e3be69, lightness 0.82, patterned in grey true
	// 3: #dc7b53, lightness 0.68, patterned in grey false
	// 4: #905e81, lightness 0.55, patterned in grey true
	// 5: #4b3d87, lightness 0.41, patterned in grey false
	// 6: #1e2646, lightness 0.28, patterned in grey true
}
