package answer_test

import (
	"fmt"

	"weekband/cmd/weekband/internal/answer"
	"weekband/cmd/weekband/internal/skerry"
)

// The same question for both regions: the east is colder, so its week comes later.
func ExampleFor() {
	edition, _, remove := skerry.Edition()
	defer remove()
	for _, place := range []string{"West Skerry", "East Skerry"} {
		reply, err := answer.For(edition, place, nil)
		if err != nil {
			fmt.Println(err)
			return
		}
		spring := reply.Windows[0]
		fmt.Printf("%s: day %.1f; on time from %s to %s\n", reply.Place, *spring.Day, spring.Dates.OntimeFrom, spring.Dates.OntimeTo)
	}
	// Output:
	// West Skerry: day 124.1; on time from 04-14 to 05-04
	// East Skerry: day 126.4; on time from 04-16 to 05-06
}

// Soil that is colder in April than in a typical year puts this year's week off.
func ExampleParseReading() {
	edition, _, remove := skerry.Edition()
	defer remove()
	reading, err := answer.ParseReading("2027-04-20=44F")
	if err != nil {
		fmt.Println(err)
		return
	}
	reply, err := answer.For(edition, "Skerry Haven", []answer.Reading{reading})
	if err != nil {
		fmt.Println(err)
		return
	}
	outlook := reply.Windows[0].Outlook
	fmt.Printf("%.1f K off; %s, not %s\n", outlook.Departure, outlook.Crossing, reply.Windows[0].Dates.Crossing)
	// Output:
	// -2.3 K off; 05-11, not 05-06
}
