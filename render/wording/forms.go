package wording

import (
	"strconv"
	"strings"
)

// Forms is how a language writes dates, as patterns that a page's script fills
// in: {month}, {day}, {from} and {to} stand for what goes there.
type Forms struct {
	Months [12]string              `json:"months"` // in full
	Short  [12]string              `json:"short"`
	Orders map[string]DatePatterns `json:"orders"` // by the word of an Order
	Dash   string                  `json:"dash"`   // between two short dates
	To     string                  `json:"to"`     // between two dates in full, "{from} to {to}"
}

// DatePatterns are a DateForm as patterns.
type DatePatterns struct {
	Date string `json:"date"` // "{month} {day}"
	Span string `json:"span"` // "{month} {from}–{to}"
}

// Forms returns the language's ways of writing dates as patterns. They say the
// same as Date and Span where a form writes all days of a month alike; a test
// sees to that for every language there is.
func (l *Language) Forms() Forms {
	f := Forms{
		Months: l.Dates.Months, Short: l.Dates.Short, Orders: map[string]DatePatterns{},
		Dash: "{from}–{to}", To: l.Numbers.To("{from}", "{to}"),
	}
	const first, last = 17, 28 // two days that no form writes otherwise
	for _, o := range Orders {
		form := &l.Dates.Forms[o]
		f.Orders[o.String()] = DatePatterns{
			Date: strings.Replace(form.Date("{month}", first), strconv.Itoa(first), "{day}", 1),
			Span: strings.NewReplacer(strconv.Itoa(first), "{from}", strconv.Itoa(last), "{to}").Replace(form.Span("{month}", first, last)),
		}
	}
	return f
}
