package daychart_test

import (
	"fmt"

	"weekband/render/daychart"
	"weekband/render/press"
)

// Three thermometers beside what a map says of their places; the last is later
// than the map's late year.
func Example() {
	chart := daychart.Agreement{
		Caption: press.Caption{Title: "Map and thermometers", Source: "Invented."},
		Points: []daychart.AgreementPoint{
			{Name: "Ardvik", Typical: 80, Early: 70, Late: 92, Measured: 82, Low: 74, High: 95, Years: 12},
			{Name: "Holt", Typical: 96, Early: 86, Late: 108, Measured: 91, Low: 91, High: 91, Years: 1},
			{Name: "Ness", Typical: 110, Early: 101, Late: 121, Measured: 124, Low: 115, High: 131, Years: 5},
		},
	}
	page, err := chart.Page(700)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, b := range page.Layout.Boxes {
		if b.Kind == press.PlaceLabel {
			fmt.Println(b.Text)
		}
	}
	_, err = chart.Page(100)
	fmt.Println(err)
	// Output:
	// Ness
	// Holt
	// Ardvik
	// press: a page 100 px wide; want 320 to 6000
}
