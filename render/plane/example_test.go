package plane_test

import (
	"fmt"

	"weekband/render/plane"
)

// The largest circle in a room with a corner cut out, and the room as SVG
// writes it.
func Example() {
	var room plane.Path
	room.AddRing(plane.Pixel{}, plane.Pixel{X: 100}, plane.Pixel{X: 100, Y: 40}, plane.Pixel{X: 40, Y: 40}, plane.Pixel{X: 40, Y: 100}, plane.Pixel{Y: 100})
	at, radius, _ := plane.Widest(&room)
	fmt.Printf("%.0f px around %.0f, %.0f\n", radius, at.X, at.Y)
	fmt.Printf("%.0f px², %.0f %% of a box\n", room.Area(), 100*plane.NewCover(&room, 0.5).Share(plane.Rect{Right: 80, Bottom: 80}))
	fmt.Println(room.SVG())
	// Output:
	// 23 px around 23, 23
	// 6400 px², 75 % of a box
	// m0 0 100 0 0 40-60 0 0 60-40 0z
}
