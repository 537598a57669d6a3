package wording

import (
	"fmt"
	"math"
	"strings"

	"weekband/grid/crossing"
	"weekband/grid/units"
	"weekband/grid/worth"
	"weekband/render/caution"
)

// stretches says what ahead of time, on time and catching up are good for. How
// much is lost by being early differs from window to window: in spring three
// tenths of what the best day stops, in late summer more than half.
const stretches = "On time is the stretch to aim for; ahead of time still works, but part of the strength is lost before the weeds come; catching up can still stop weeds that are not up."

func englishSentences() Sentences {
	return Sentences{
		Measured: Measured{
			Air: "air", Soil: "soil",
			SoilAt: func(depth units.Metres) string {
				return fmt.Sprintf("soil at %s (%s)", depth.Inches(), depth.Centimetres())
			},
		},
		Sure: englishSure(), Window: englishWindow(), Further: englishFurther(), Shift: englishShift(), Region: englishRegion(), Calendar: englishCalendar(), Feed: englishFeed(),
		Verdict: Verdict{
			Title:  "Map against soil thermometers",
			Method: "Each year's day is the last of the first seven whose mean is past the threshold.",
		},
		Edition: func(year int, period string) string {
			if period == "" {
				return fmt.Sprintf("Edition %d.", year)
			}
			return fmt.Sprintf("Edition %d, normals of %s.", year, period)
		},
		Titled:       func(title, more string) string { return title + ": " + more },
		HandoutTitle: func(window string) string { return "Handout: " + window },
		HasMaps:      func(address string) string { return address + " has the maps and tables." },
		Caution:      caution.Short,
		Cautions:     caution.All[:],
	}
}

func englishSure() Sure {
	return Sure{
		OwnSoil:   "Soil temperatures are the input's own.",
		AirItself: "Air temperature is mapped as it is; soil differs from it by a week or more.",
		GeneralOffset: func(offset units.Delta) string {
			return fmt.Sprintf("Soil is worked out from air with one general offset of %.1f °C that no local thermometer corrected.", float64(offset))
		},
		NoStationNear: func(offset units.Delta) string {
			return fmt.Sprintf("Soil is worked out from air with one general offset of %.1f °C: no station that measures both is near.", float64(offset))
		},
		Stations: func(n int) string {
			return fmt.Sprintf("Soil is worked out from air with what %d stations that measure both tell about the places between them; the expected error of every map comes from how well each of them is foretold by the others.", n)
		},
		Interpolated: func(mae units.Delta) string {
			return fmt.Sprintf("Temperatures between stations are interpolated; a station left out is predicted to %.1f °C (%.1f °F) on average.", float64(mae), mae.Fahrenheit())
		},
		OwnSpread: "Early and late years follow from the year-to-year standard deviation of the input.",
		UsualSpread: func(days float64) string {
			return fmt.Sprintf("From year to year the day moves: in one year of ten it comes %.0f days earlier or more, in one of ten %.0f days later or more (a usual figure, not measured here).", days, days)
		},
		Expected: func(days float64) string {
			return fmt.Sprintf("The typical week is expected to be off by about %.0f\u00a0days.", days)
		},
		ExpectedMore: func(days, beyond float64) string {
			return fmt.Sprintf("The typical week is expected to be off by about %.0f\u00a0days, more on the %.0f%% of the land that lies far from soil thermometers.", days, 100*beyond)
		},
		Beyond: "far from soil thermometers",
	}
}

func englishWindow() Window {
	return Window{
		Lead:    func(event string) string { return "Typical week in which " + event },
		OneWeek: func(event string) string { return "On time ends as " + event },
		Passing: func(what string, t crossing.Trigger) string {
			if t.Direction == crossing.Cooling {
				return fmt.Sprintf("%s cools to %s", what, t.Level.Both())
			}
			return fmt.Sprintf("%s warms to %s", what, t.Level.Both())
		},
		Undated: englishUndated,
		NoWeek:  englishNoWeek,
		Part:    func(share string) string { return "a week on " + share + " of its ground only" },
		LeftOut: func(n int) string {
			return "Left out: " + units.Count(n, "region") + " in which less than half of the ground has such a week."
		},
		Parted: "A share beside a name: its weeks hold for no more of its ground.",
		Seeding: func(seeding, last string) string {
			return fmt.Sprintf("Seeding grass on %s: the last application that keeps it open is on %s, unless the label asks for longer.", seeding, last)
		},
		Residual: func(t worth.Treatment) string {
			return fmt.Sprintf("Reckoned for a residual that halves in %.0f days in soil of %s and more slowly in colder soil, averaged over early and late years: an illustration, not a product; the label and local trials come before it.",
				t.HalfLife, t.Reference.Both())
		},
		Guide: func(level units.Celsius) []string {
			return []string{
				fmt.Sprintf("The map shades the typical week in which the soil passes %s; find your place and its colour.", level.Both()),
				stretches,
				"A warm or cold year moves all of it by two weeks or more: check your own soil before you act.",
			}
		},
		Shaded: func(lead string) string { return "Shaded map. " + lead + "." },
		Range: func(first, firstWeek, last, lastWeek string) string {
			return fmt.Sprintf("Earliest in %s, in the week of %s; latest in %s, in the week of %s.", first, firstWeek, last, lastWeek)
		},
	}
}

func englishUndated(why crossing.Reason, d crossing.Direction) string {
	switch why {
	case crossing.Never:
		return "never gets that warm"
	case crossing.Always:
		if d == crossing.Cooling {
			return "never cools to it"
		}
		return "always warmer"
	case crossing.Flat:
		return "hovers near it: no clear week"
	}
	return "no data"
}

func englishNoWeek(why crossing.Reason) string {
	switch why {
	case crossing.Always:
		return "always above the threshold: no week stands out"
	case crossing.Never:
		return "never reaches the threshold"
	case crossing.Flat:
		return "hovers near the threshold: no week can be told"
	}
	return "no data"
}

func englishFurther() Further {
	year := func(which string) func(event string) string {
		return func(event string) string { return fmt.Sprintf("Week in which %s in %s (one of ten)", event, which) }
	}
	return Further{
		Early: Tale{
			Title: "An early year: one year in ten is as early or earlier", Heading: "Week of an early year", Unit: "weeks", Shows: year("an early year"),
		},
		Late: Tale{
			Title: "A late year: one year in ten is as late or later", Heading: "Week of a late year", Unit: "weeks", Shows: year("a late year"),
		},
		Spread: Tale{
			Title: "How far the day moves from year to year", Heading: "Standard deviation, days", Unit: "days",
			Shows: func(event string) string {
				return "Standard deviation, from year to year, of the day on which " + event
			},
		},
		Error: Tale{
			Title: "How far off the typical day may be", Heading: "Expected error, days", Unit: "days",
			Shows: func(event string) string { return "Expected error of the typical day on which " + event },
		},
		Worth: func(week string) Tale {
			return Tale{
				Title: "What an application in the week of " + week + " would still stop", Heading: "Percent of the season’s weeds", Unit: "percent",
				Shows: func(string) string {
					return "Share of the season’s weeds that an application in the week of " + week + " would still stop: little where it is too late, and where it is too early"
				},
			}
		},
	}
}

func englishRegion() Region {
	return Region{
		Chart: func(what string) string {
			return strings.ToUpper(what[:1]) + what[1:] + " in a typical year, and the band of eight years in ten"
		},
		Guide: func(level units.Celsius) []string {
			return []string{
				"The heavy line on the map is the region; the shades are the typical weeks of all, light where they are early, dark where they are late.",
				fmt.Sprintf("The curve passes %s at the dot, the end of on time; where the band does so, an early and a late year do.", level.Both()),
				stretches,
			}
		},
		OnTime: "On time", Ahead: "Ahead of time", CatchingUp: "Catching up",
		EarlyLate:   "An early and a late year, one in ten each",
		BeforeAfter: func(early, late string) string { return fmt.Sprintf("before %s, after %s", early, late) },
		Tenths:      "Eight tenths of the ground that has a week cross from",
		FromTo:      func(from, to string) string { return from + " to " + to },
		Error:       "Expected error of the typical week",
		AboutDays:   func(days float64) string { return fmt.Sprintf("about %.0f days", days) },
		Worth:       "Weeds an application would still stop, as ahead of time begins, as on time begins, as it ends and two weeks later",
		Shares: func(shares [4]float64) string {
			var list []string
			for _, s := range shares {
				list = append(list, fmt.Sprintf("%.0f%%", 100*s))
			}
			return strings.Join(list, ", ")
		},
		SecondDue: "A second application is due about",
		Seeding:   func(seeding string) string { return "Last application that keeps seeding on " + seeding + " open" },
		SeedingLast: func(last string, lost, ontime float64) string {
			switch left := math.Round(ontime - lost); {
			case lost == 0:
				return last
			case left < 1:
				return last + "; no day of on time is left"
			}
			return fmt.Sprintf("%s; seeding costs %.0f of the %.0f days of on time", last, math.Round(lost), math.Round(ontime))
		},
		Holds:    "These weeks hold for",
		HoldsFor: func(share string) string { return share + " of the region's ground" },
		Part: func(share string) string {
			return fmt.Sprintf("These weeks hold for %s of the region's ground; on the rest none can be told.", share)
		},
	}
}
