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
	AtBest                    func(ahead, best string) string // shares of the weeds that are stopped as ahead of time begins, and at best, a sentence
	Keep                      string                          // what else to heed, a sentence
}

func englishCalendar() Calendar {
	return Calendar{
		Title:      func(region, title string) string { return region + ": " + title },
		Summary:    func(status, window, region string) string { return fmt.Sprintf("%s: %s (%s)", status, window, region) },
		Ahead:      "A pre-emergent treatment is ahead of time now: it still works, but part of its strength is lost before the weeds come.",
		OnTime:     "This is the stretch to aim for with a pre-emergent treatment.",
		CatchingUp: "Some weeds are up by now; a pre-emergent treatment can still stop weeds that are not.",
		Typical: func(event, week string) string {
			return fmt.Sprintf("In a typical year %s here in the week of %s.", event, week)
		},
		Years: func(early, late string) string {
			return fmt.Sprintf("In one year of ten it does so before %s, in one of ten after %s.", early, late)
		},
		AtBest: func(ahead, best string) string {
			return fmt.Sprintf("Put down as ahead of time begins it would still stop %s of the season's weeds, on the best day %s (an illustration).", ahead, best)
		},
		Keep: "Keep treatments off water and hard surfaces, and mind the reseeding interval before you sow grass.",
	}
}
