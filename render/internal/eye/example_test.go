package eye_test

import (
	"fmt"
	"image/color"

	"weekband/render/internal/eye"
)

// Red and green are told apart by full sight, hardly without red cones.
func Example() {
	white, black := color.NRGBA{R: 255, G: 255, B: 255, A: 255}, color.NRGBA{A: 255}
	red, green := color.NRGBA{R: 190, G: 90, A: 255}, color.NRGBA{R: 70, G: 125, A: 255}
	fmt.Printf("%.0f:1\n", eye.Contrast(black, white))
	for _, kind := range []string{"normal sight", "protanopia"} {
		m := eye.Sights[kind]
		fmt.Printf("%s: %.0f\n", kind, eye.Difference(eye.Seen(red, m), eye.Seen(green, m)))
	}
	// Output:
	// 21:1
	// normal sight: 45
	// protanopia: 4
}
