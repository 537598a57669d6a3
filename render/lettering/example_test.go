package lettering_test

import (
	"fmt"

	"weekband/render/lettering"
	"weekband/render/plane"
)

// Three regions side by side: a name fits inside the first on one line, inside
// the second on two, and the third, which is small, gets its name
// so near beside it that no line need lead there.
func Example() {
	regions := []*plane.Path{
		plane.RectPath(plane.Rect{Left: 10, Top: 10, Right: 210, Bottom: 190}),
		plane.RectPath(plane.Rect{Left: 210, Top: 10, Right: 310, Bottom: 190}),
		plane.RectPath(plane.Rect{Left: 310, Top: 90, Right: 326, Bottom: 106}),
	}
	var land plane.Path
	for _, r := range regions {
		land.Append(r)
	}
	p := lettering.NewPlacer(plane.Rect{Right: 500, Bottom: 200}, 13, plane.NewCover(&land, 2))
	p.Regions([]string{"Merrow Vale", "Upper Wendrow", "Skerry"}, regions, nil)
	for _, l := range p.Labels {
		for _, t := range l.Lines {
			fmt.Printf("%s at %.0f, %.0f; leader %t\n", t.String, t.At.X, t.At.Y, l.Leader != nil)
		}
	}
	fmt.Println(len(p.Dropped), "without room")
	// Output:
	// Merrow Vale at 100, 103; leader false
	// Upper at 260, 55; leader false
	// Wendrow at 260, 72; leader false
	// Skerry at 346, 101; leader false
	// 0 without room
}
