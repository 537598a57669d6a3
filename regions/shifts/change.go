package shifts

// Change is what became of a region's week.
type Change uint8

const (
	None    Change = iota // neither edition has a week for half of it
	Same                  // the same week
	Earlier               // an earlier one
	Later                 // a later one
	Gained                // only the newer has a week for half of it
	Lost                  // only the older
	Added                 // only the newer has the region
	Left                  // only the older
)

// Changes lists all of them in their order.
var Changes = [...]Change{None, Same, Earlier, Later, Gained, Lost, Added, Left}

// String returns the word written in tables.
func (c Change) String() string {
	return [...]string{"none", "same", "earlier", "later", "gained", "lost", "added", "left"}[c]
}

// Change returns what became of the region's week.
func (r *Row) Change() Change {
	switch {
	case r.Before == nil:
		return Added
	case r.After == nil:
		return Left
	case r.Told():
		return [...]Change{Earlier, Same, Later}[1+sign(r.Weeks())]
	case r.After.HasWeek():
		return Gained
	case r.Before.HasWeek():
		return Lost
	}
	return None
}

// Of returns the rows of which the week changed so.
func Of(rows []Row, c Change) []*Row {
	var out []*Row
	for i := range rows {
		if rows[i].Change() == c {
			out = append(out, &rows[i])
		}
	}
	return out
}
