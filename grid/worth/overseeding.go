package worth

import "weekband/grid/season"

// Method is how grass seed is brought out.
type Method uint8

const (
	Broadcast Method = iota // spread over the surface
	Slit                    // laid into slits in the soil
)

// String returns the word a recipe uses.
func (m Method) String() string {
	return [...]string{"broadcast", "slit"}[m]
}

const week = 7.0 // days

// reseeding holds the weeks from an application to seeding of the classes, by
// Method.
//
// Keeley and Zhou 2005 (Weed Technol. 19) found safe intervals for Kentucky
// bluegrass, after a late-April application, of 6, 8 and 14 weeks
// broadcast and 11, 10 and 16 weeks slit for three actives: two with half-lives
// in turf of about a month, and one with about four. Short takes the longer of
// the first two, Long the third; Medium is ours, halfway between, rounded up.
// In colder soil strength lasts longer than it did there.
var reseeding = [...]struct {
	halfLife float64
	weeks    [2]float64
}{
	{Short, [2]float64{8, 11}},
	{Medium, [2]float64{11, 14}},
	{Long, [2]float64{14, 16}},
}

// ReseedingInterval returns a cautious number of days from an application to
// seeding for a half-life in days: that of the next longer class, and past the
// longest class as much longer as the half-life is (ours). It is a default to
// plan with. The label's interval stands above it and is often longer.
func ReseedingInterval(halfLife float64, m Method) float64 {
	for _, class := range &reseeding {
		if halfLife <= class.halfLife {
			return class.weeks[m] * week
		}
	}
	return reseeding[len(reseeding)-1].weeks[m] * week * halfLife / Long
}

// DefaultYoung is how many days new grass must grow before it bears a treatment
// that stops seeds. It is ours: labels ask for several mowings, about two
// months (common practice, no source).
const DefaultYoung = 60.0

// Overseeding is grass seed brought out on a day of every year. Treatments
// that stop weeds from coming up stop it too.
type Overseeding struct {
	Day      season.Day
	Interval float64 // days that must lie between an application and Day, 0 to 365
	Young    float64 // days after Day in which nothing may be applied; 0: DefaultYoung
}

// LastDay returns the last moment of the year at which an application keeps
// the seeding open: Day less Interval.
func (o Overseeding) LastDay() season.Day { return (o.Day - season.Day(o.Interval)).In() }

// Kept says how much of each status an overseeding leaves open.
type Kept struct {
	// ClosedFrom is the last moment that keeps the seeding open, and
	// ClosedTo when the young grass bears treatments again, both unwrapped
	// like the Borders. The seeding between them is the first whose ClosedTo
	// comes after AheadFrom, whether or not it closes any of the season.
	ClosedFrom, ClosedTo season.Day

	Ahead, Ontime, CatchUp float64 // days that stay open
	OntimeLost             float64 // days of on time that do not
}

// Collides reports whether the overseeding closes some of on time.
func (k Kept) Collides() bool { return k.OntimeLost > 0 }

// Within returns what the overseeding leaves open between the borders of a
// place's statuses, which span at most a year.
func (o Overseeding) Within(b Borders) Kept {
	if o.Young == 0 {
		o.Young = DefaultYoung
	}
	start := b.AheadFrom - season.Day(o.Young)
	seeding := start + season.Day(start.DaysTo(o.Day))
	k := Kept{ClosedFrom: seeding - season.Day(o.Interval), ClosedTo: seeding + season.Day(o.Young)}
	open := func(from, to season.Day) float64 {
		days := to - from
		for _, year := range [...]season.Day{0, season.YearDays} {
			days -= max(min(to, k.ClosedTo+year)-max(from, k.ClosedFrom+year), 0)
		}
		return float64(max(days, 0))
	}
	k.Ahead = open(b.AheadFrom, b.OntimeFrom)
	k.Ontime = open(b.OntimeFrom, b.OntimeTo)
	k.CatchUp = open(b.OntimeTo, b.CatchupTo)
	k.OntimeLost = float64(b.OntimeTo-b.OntimeFrom) - k.Ontime
	return k
}
