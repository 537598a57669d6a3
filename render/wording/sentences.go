package wording

import (
	"weekband/grid/crossing"
	"weekband/grid/units"
	"weekband/grid/worth"
)

// Sentences is what stands around the maps of an edition and on its handouts.
// Fields end without a stop unless they say that they are sentences.
type Sentences struct {
	Measured Measured
	Sure     Sure
	Window   Window
	Further  Further
	Shift    Shift
	Region   Region
	Verdict  Verdict
	Calendar Calendar
	Feed     Feed

	Edition      func(year int, period string) string // of the normals, "" when not known; a sentence
	Titled       func(title, more string) string      // "Spring: Carrow"
	HandoutTitle func(window string) string
	HasMaps      func(address string) string // a sentence
	Caution      string                      // the one line that fits on a map
	Cautions     []string                    // in full, a sentence or two each
}

// Measured says what the threshold is compared with.
type Measured struct {
	Air, Soil string
	SoilAt    func(depth units.Metres) string
}

// Sure says how sure the days are, in sentences.
type Sure struct {
	OwnSoil       string                            // the input's own soil temperatures
	AirItself     string                            // air is mapped, not soil
	GeneralOffset func(offset units.Delta) string   // soil from air, nothing local known
	NoStationNear func(offset units.Delta) string   // the same, for want of stations
	Stations      func(n int) string                // soil from air and stations
	Interpolated  func(mae units.Delta) string      // temperatures between stations
	OwnSpread     string                            // from year to year, of the input
	UsualSpread   func(days float64) string         // from year to year, a usual figure
	Expected      func(days float64) string         // of the typical week
	ExpectedMore  func(days, beyond float64) string // with the share of the land far from thermometers
	Beyond        string                            // that land, in a legend
}

// Window is the words of the maps of a window.
type Window struct {
	Lead     func(event string) string // what a map of weeks shows
	OneWeek  func(event string) string // what the map of one week shows; the event is the end of on time
	Passing  func(what string, t crossing.Trigger) string
	Undated  func(why crossing.Reason, d crossing.Direction) string // in a legend
	NoWeek   func(why crossing.Reason) string                       // of a region, beside its name
	Part     func(share string) string                              // of a region, beside its name, when less than half of it has a week
	LeftOut  func(n int) string                                     // regions whose weeks are not compared, for that reason, a sentence
	Parted   string                                                 // what a share beside a region's name on a handout says, a sentence
	Seeding  func(seeding, last string) string                      // dates of it and of the last application before it, a sentence
	Residual func(t worth.Treatment) string                         // a sentence
	Guide    func(level units.Celsius) []string                     // how to read a handout, sentences
	Shaded   func(lead string) string                               // of those who do not see a map, a sentence
	Range    func(first, firstWeek, last, lastWeek string) string   // names and weeks, a sentence
}

// Further is the words of further kinds of maps.
type Further struct {
	Early, Late, Spread, Error Tale
	Worth                      func(week string) Tale
}

// Tale is the words of one further map.
type Tale struct {
	Title   string                    // on the page
	Shows   func(event string) string // what the map shows
	Heading string                    // of the legend
	Unit    string                    // of values in the alternative text
}

// Region is the words of a region's handout.
type Region struct {
	Chart       func(what string) string
	Guide       func(level units.Celsius) []string // sentences
	OnTime      string                             // labels of facts, and their values
	Ahead       string
	CatchingUp  string
	EarlyLate   string
	BeforeAfter func(early, late string) string
	Tenths      string
	FromTo      func(from, to string) string
	Error       string
	AboutDays   func(days float64) string
	Worth       string
	Shares      func(shares [4]float64) string
	SecondDue   string
	Seeding     func(seeding string) string                    // the label, with its date
	SeedingLast func(last string, lost, ontime float64) string // a date, and days of on time
	Holds       string                                         // for a share of the ground
	HoldsFor    func(share string) string
	Part        func(share string) string // how much of a region its weeks hold for, a sentence
}

// Verdict is the words around a chart of agreement.
type Verdict struct {
	Title  string
	Method string // how the thermometers' days were found, a sentence
}
