package report

// Shares of a region's ground from which its weeks are told as the region's,
// what is written as 50 percent, and under which ground without a week is not
// worth a word, what would be written as 0 percent. Both are ours.
const (
	mostly = 0.495
	hardly = 0.005
)

// MostlyDated reports whether at least half of the region's ground, in whole
// percents, has a week. Only then are its weeks told as the region's own:
// compared with those of others and entered into calendars.
func (r *Row) MostlyDated() bool { return r.Dated && Mostly(r.Shares.DatedShare) }

// Mostly reports whether a share of a region's ground, 0 to 1, is enough for
// MostlyDated.
func Mostly(dated float64) bool { return dated >= mostly }

// DatedThroughout reports whether the weeks hold for the region as a whole:
// hardly any ground is known to have none, and at least half of it has one.
// Ground without data, such as the sea within an outline, is not known to have
// none. Where it is false, whatever tells the weeks tells Shares.DatedShare.
func (r *Row) DatedThroughout() bool {
	s := &r.Shares
	return r.MostlyDated() && s.NeverShare+s.AlwaysShare+s.FlatShare < hardly
}
