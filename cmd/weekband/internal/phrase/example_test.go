package phrase_test

import (
	"context"
	"fmt"

	"weekband/cmd/weekband/internal/phrase"
	"weekband/cmd/weekband/internal/skerry"
)

// The sentences that maps, pages and lookups of the island share.
func ExampleShown() {
	path, remove := skerry.Recipe()
	defer remove()
	s, err := skerry.Survey(context.Background(), path)
	if err != nil {
		fmt.Println(err)
		return
	}
	defer s.Inputs.Close()
	r, f := s.Recipe, s.Findings.Fields[0]
	measures := phrase.Measures(r)
	fmt.Println(phrase.Lead(r.Language, f.Window, measures))
	fmt.Println(phrase.Shown(r.Language, f, measures, s.Findings.Rows))
	fmt.Println(phrase.Sure(r, s.Inputs))
	// Output:
	// Typical week in which soil at 4 in (10 cm) warms to 55 °F (12.8 °C)
	// Shaded map. Typical week in which soil at 4 in (10 cm) warms to 55 °F (12.8 °C). Earliest in West Skerry, in the week of Apr 30–May 6; latest in East Skerry, in the week of May 7–13.
	// Soil is worked out from air with one general offset of 1.6 °C that no local thermometer corrected. From year to year the day moves: in one year of ten it comes 14 days earlier or more, in one of ten 14 days later or more (a usual figure, not measured here).
}

func ExamplePercent() {
	fmt.Println(phrase.Percent(0.254))
	// Output: 25 %
}
