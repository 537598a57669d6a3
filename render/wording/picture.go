package wording

import (
	"weekband/grid/status"
	"weekband/render/carto"
)

// Legend is the words of the legends of maps.
type Legend struct {
	TypicalWeek  string                      // heading of a map of weeks
	WeekGoodFor  string                      // heading of a frame of one week
	WithShare    func(heading string) string // heading over shares of the area
	Labelled     func(label, share string) string
	Statuses     [len(status.All)]string // by status
	Never        string                  // ground without a week, by its reason
	Always, Flat string
	NoData       string
	LessSure     string // ground whose week is less sure
}

// Status returns the words of a status.
func (l *Language) Status(s status.Status) string { return l.Legend.Statuses[s] }

// Map is the words in and under maps.
type Map struct {
	Projection      func(p carto.Projection) string               // a sentence
	InsetProjection func(title string, p carto.Projection) string // a sentence
	WithoutInsets   func(titles []string) string                  // a sentence
	OtherScale      string
	ScaleBar        func(km float64) string
	Latitude        func(degrees float64) string // north positive
	Longitude       func(degrees float64) string // east positive
	North           string                       // the letter of an arrow
}

// Handout is the words of pages to print, besides those of their maps.
type Handout struct {
	HowToRead, HowSure string // headings
	EveryRegion        string
	SomeRegions        func(shown, all int) string // from the earliest to the latest
}

// Chart is the words of charts that hold a map against thermometers.
type Chart struct {
	Across, Up     string // axes, each with an arrow
	Later, Earlier string // the sides of the line of the same day
	SameDay        string // that line, beside the frame
	Within         [2]Tolerance
	HowToRead      string
	Records        [3]Record // 1 or 2, 3 to 9, and 10 or more years
	Years          string    // what the whisker spans
	Doubtful       string    // the look of a dot, and why
	Unusual        string
	BothSame       string // the line, in the key
	Counted        func(band string, in, all int) string
	AndMore        func(name string, others int) string
}

// Tolerance is a band around the line of the same day: two weeks, then one.
type Tolerance struct {
	Beside string // beside the frame
	Key    string // in the key
}

// Record is a class of how many years a thermometer has measured, in the key.
type Record struct {
	First string // as the first of the classes, with what a dot is
	Next  string // after another
}
