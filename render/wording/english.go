package wording

import (
	"fmt"
	"strconv"
	"strings"

	"weekband/grid/status"
	"weekband/render/carto"
)

// English returns the catalogue of English, months first.
func English() *Language {
	return &Language{
		Tag: "en", Name: "English",
		Dates: englishDates(), Numbers: englishNumbers(), Legend: englishLegend(), Map: englishMap(),
		Handout: Handout{
			HowToRead: "How to read it", HowSure: "How sure it is", EveryRegion: "The weeks of every region",
			SomeRegions: func(shown, all int) string {
				return fmt.Sprintf("The weeks of %d of %d regions, from the earliest to the latest", shown, all)
			},
		},
		Chart: englishChart(), Sentences: englishSentences(),
	}
}

func englishDates() Dates {
	return Dates{
		Months: [12]string{"January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"},
		Short:  [12]string{"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"},
		Forms: [len(Orders)]DateForm{
			MonthFirst: {
				Date: func(month string, day int) string { return fmt.Sprintf("%s %d", month, day) },
				Span: func(month string, from, to int) string { return fmt.Sprintf("%s %d–%d", month, from, to) },
			},
			DayFirst: {
				Date: func(month string, day int) string { return fmt.Sprintf("%d %s", day, month) },
				Span: func(month string, from, to int) string { return fmt.Sprintf("%d–%d %s", from, to, month) },
			},
		},
		AllYear: "all year",
		Before:  func(date string) string { return "before " + date },
		OrLater: func(date string) string { return date + " or later" },
		Year:    "January to December",
	}
}

func englishNumbers() Numbers {
	return Numbers{
		Number: func(v float64) string {
			return strings.Replace(strconv.FormatFloat(v, 'f', -1, 64), "-", "−", 1)
		},
		Percent: func(share float64) string {
			if share < 0.005 {
				return "<1%"
			}
			return fmt.Sprintf("%.0f%%", share*100)
		},
		Dash:   func(from, to string) string { return from + "–" + to },
		To:     func(from, to string) string { return from + " to " + to },
		Under:  func(to string) string { return "under " + to },
		OrMore: func(from string) string { return from + " or more" },
		All:    "all",
	}
}

func englishLegend() Legend {
	return Legend{
		TypicalWeek: "Typical week", WeekGoodFor: "What this week is good for",
		WithShare: func(heading string) string { return heading + ", with share of the area" },
		Labelled:  func(label, share string) string { return label + ", " + share },
		Statuses: [len(status.All)]string{
			status.Resting: "resting", status.Ahead: "ahead of time", status.OnTime: "on time",
			status.CatchingUp: "catching up", status.Past: "past",
		},
		Never: "never reaches", Always: "always above", Flat: "no clear week", NoData: "no data",
		LessSure: "week less sure",
	}
}

func englishMap() Map {
	return Map{
		Projection:      func(p carto.Projection) string { return "Projection: " + p.String() + "." },
		InsetProjection: func(title string, p carto.Projection) string { return "Inset " + title + ": " + p.String() + "." },
		WithoutInsets:   func(titles []string) string { return "Insets not shown here: " + strings.Join(titles, ", ") + "." },
		OtherScale:      "Not to the same scale",
		ScaleBar:        kilometresAndMiles,
		Latitude:        carto.Latitude,
		Longitude:       carto.Longitude,
		North:           "N",
	}
}

// kilometresAndMiles writes a length in both units (1 mile = 1.609344 km,
// international mile of 1959).
func kilometresAndMiles(km float64) string {
	const kmPerMile = 1.609344
	miles := km / kmPerMile
	if miles >= 10 {
		return fmt.Sprintf("%g km (%.0f miles)", km, miles)
	}
	return fmt.Sprintf("%g km (%.1f miles)", km, miles)
}

func englishChart() Chart {
	return Chart{
		Across: "typical day on the map →", Up: "↑ day the thermometers say: median year",
		Later: "later than the map", Earlier: "earlier than the map", SameDay: "same day",
		Within:    [2]Tolerance{{Beside: "two weeks", Key: "within two weeks"}, {Beside: "a week", Key: "within a week"}},
		HowToRead: "How to read it",
		Records: [3]Record{
			{First: "place with 1 or 2 years", Next: "1 or 2 years"},
			{First: "place with 3 to 9 years", Next: "3 to 9 years"},
			{First: "place with 10 years or more", Next: "10 years or more"},
		},
		Years:    "its earliest to latest year",
		Doubtful: "hollow: the map is less sure there",
		Unusual:  "outside the map's early and late year",
		BothSame: "the same day on both",
		Counted:  func(band string, in, all int) string { return fmt.Sprintf("%s: %d of %d places", band, in, all) },
		AndMore:  func(name string, others int) string { return fmt.Sprintf("%s and %d more", name, others) },
	}
}
