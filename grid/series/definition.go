package series

// Definition says which day of a year counts as its crossing. All count from
// the coldest time of the typical year for warming, from the warmest for
// cooling; "past" includes a value exactly at the level, and for cooling means
// at or below it.
type Definition uint8

const (
	// Trailing7 is the first day on which the mean of this day and the six
	// before is past the level: the last day of the span. It is the day on
	// which somebody who reads a thermometer daily knows; the span's lag of
	// three days and what weather adds in front nearly cancel.
	Trailing7 Definition = iota
	// FirstDay is the first single day past the level.
	FirstDay
	// FiveDays is the first of five days in a row that are all past.
	FiveDays
	// Centred7 is the middle day of the first span of seven whose mean is
	// past: Trailing7 less three days.
	Centred7
	// LastBelow is the day after the last one short of the level before the
	// other extreme of the typical year.
	LastBelow
)

// String returns the word the tables of this package's documentation use.
func (d Definition) String() string {
	return [...]string{"trailing7", "firstday", "fivedays", "centred7", "lastbelow"}[d]
}
