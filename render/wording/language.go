package wording

import (
	"fmt"
	"strings"
)

// Language is a catalogue: everything a picture says in one language. Every
// field of it is set; a test sees to that. A Language is not changed once it
// is in use, so that several goroutines may share it.
type Language struct {
	Tag       string // of BCP 47, "en"
	Name      string // in the language itself
	Order     Order  // of dates; the zero value is MonthFirst
	Dates     Dates
	Numbers   Numbers
	Legend    Legend
	Map       Map
	Handout   Handout
	Chart     Chart
	Sentences Sentences
}

// known lists the languages there are, the default first.
var known = [...]func() *Language{English}

// Tags lists the tags of the languages there are, the default first.
func Tags() []string {
	var tags []string
	for _, language := range known {
		tags = append(tags, language().Tag)
	}
	return tags
}

// Of returns the language with a tag, "" for the default, with dates in an
// order. The error lists the languages there are.
func Of(tag string, order Order) (*Language, error) {
	var tags []string
	for _, language := range known {
		l := language()
		if tag == "" || strings.EqualFold(tag, l.Tag) {
			l.Order = order
			return l, nil
		}
		tags = append(tags, fmt.Sprintf("%s (%s)", l.Tag, l.Name))
	}
	return nil, fmt.Errorf("language %q: there is %s only", tag, strings.Join(tags, ", "))
}

// Or returns the language, or English with months first for nil.
func (l *Language) Or() *Language {
	if l == nil {
		return English()
	}
	return l
}
