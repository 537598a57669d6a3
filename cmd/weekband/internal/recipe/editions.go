package recipe

import "time"

// Earlier is an edition that went out before this one.
type Earlier struct {
	Edition   int
	Published time.Time // 0:00 UTC of the day
	Address   string    // where it is still to be had, "" for nowhere
}

// earlier reads the editions before the one of a year, which went out on
// published, zero when the recipe does not say.
func earlier(root *mapping, year int, published time.Time) []Earlier {
	var list []Earlier
	for _, m := range root.mappings("earlier") {
		e := Earlier{Edition: edition(m), Published: day(m, "published"), Address: address(m)}
		if e.Published.IsZero() && m.find("published") == nil {
			m.missing("published", "the day that edition went out, such as 2025-12-03")
		}
		if e.Edition >= year && year != 0 && e.Edition != 0 {
			m.problem("edition", "edition %d is no earlier one: this recipe's is %d", e.Edition, year)
		}
		if !published.IsZero() && !e.Published.Before(published) {
			m.problem("published", "published %s: want a day before %s, when edition %d goes out", e.Published.Format(time.DateOnly), published.Format(time.DateOnly), year)
		}
		for _, o := range list {
			if o.Edition == e.Edition && e.Edition != 0 {
				m.problem("edition", "edition %d stands twice among the earlier ones", e.Edition)
			}
		}
		list = append(list, e)
		m.finish()
	}
	return list
}

// day reads a day such as 2026-12-01; it is zero when absent or wrong.
func day(m *mapping, key string) time.Time {
	text := m.text(key, "")
	if text == "" {
		return time.Time{}
	}
	d, err := time.Parse(time.DateOnly, text)
	if err != nil || d.Year() < 1900 || d.Year() > 2999 {
		m.problem(key, "%s %q: want a day as year-month-day, such as 2026-12-01", key, text)
		return time.Time{}
	}
	return d
}
