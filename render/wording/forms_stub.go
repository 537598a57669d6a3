package wording

func (l *Language) Forms() any {
	return map[string]any{"short": l.Dates.Short, "months": l.Dates.Months}
}
