package verdict_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"

	"weekband/cmd/weekband/internal/skerry"
	"weekband/cmd/weekband/internal/verdict"
)

// A thermometer that showed 53 °F on 24 April and 57 °F four days later had 55 °F
// halfway between, and stayed above it.
func ExampleJudge() {
	edition, recipe, remove := skerry.Edition()
	defer remove()
	readings := filepath.Join(filepath.Dir(recipe), "readings.csv")
	const text = `place,lat,lon,date,soil,depth
Haven,38.11,-47.3,2026-04-24,53 F,4 in
Haven,38.11,-47.3,2026-04-28,57 F,4 in
Haven,38.11,-47.3,2026-05-02,58 F,4 in
`
	if err := os.WriteFile(readings, []byte(text), 0o644); err != nil {
		fmt.Println(err)
		return
	}
	found, err := verdict.Judge(context.Background(), edition, readings, "spring", func([]string) {})
	if err != nil {
		fmt.Println(err)
		return
	}
	place := found.Reply().Windows[0].Places[0]
	fmt.Printf("%s: %s by the map, %s by the thermometer, %+.1f days\n", place.Place, place.Typical, place.Measured, *place.Off)
	// Output:
	// Haven: 05-06 by the map, 04-26 by the thermometer, -9.9 days
}
