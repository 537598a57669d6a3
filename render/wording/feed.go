package wording

import (
	"fmt"
	"strings"
)

// Feed is the words of the feed of editions.
type Feed struct {
	Entry func(title string, year int) string // title of an entry
	Holds func(windows []string) string       // what an edition holds, a sentence
}

func englishFeed() Feed {
	return Feed{
		Entry: func(title string, year int) string { return fmt.Sprintf("%s, edition %d", title, year) },
		Holds: func(windows []string) string {
			return "Maps, tables and handouts of the typical weeks: " + strings.Join(windows, "; ") + "."
		},
	}
}
