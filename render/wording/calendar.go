package wording

import "fmt"

// Calendar is the words of the calendars that readers import. Their statuses
// are those of Region.
type Calendar struct {
	Title   func(region, title string) string          // of a region's calendar
	Summary func(status, window, region string) string // of an event
	// What each status is good for, sentences.
	Ahead, OnTime, CatchingUp string
	Typical                   func(event, week string) string // when the typical year crosses, a sentence
	Years                     func(early, late string) string // dates of an early and a late year, a sentence
	Part                      func(share string) string       // how much of the region has such a week, a sentence
	Keep                      string                          // what else to heed, a sentence
}

func englishCalendar() Calendar {
	return Calendar{
		Title:      func(region, title string) string { return region + ": " + title },
		Summary:    func(status, window, region string) string { return fmt.Sprintf("%s: %s (%s)", status, window, region) },
		Ahead:      "A pre-emergent treatment is ahead of time now: early, yet much of its strength lasts.",
		OnTime:     "This is the stretch to aim for with a pre-emergent treatment.",
		CatchingUp: "Some weeds are up by now; a pre-emergent treatment still stops those that are not.",
		Typical: func(event, week string) string {
			return fmt.Sprintf("In a typical year %s here in the week of %s.", event, week)
		},
		Years: func(early, late string) string {
			return fmt.Sprintf("In one year of ten it does so before %s, in one of ten after %s.", early, late)
		},
		Part: func(share string) string {
			return fmt.Sprintf("%s of the region's ground has such a week, the rest has none.", share)
		},
		Keep: "Keep treatments off water and hard surfaces, and mind the reseeding interval before you sow grass.",
	}
}
