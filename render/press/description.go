package press

import (
	"cmp"
	"errors"
	"fmt"
	"regexp"
	"strings"
)

// Description is what a vector file says of itself to those who do not see
// it.
type Description struct {
	Title string // what the picture is; required
	Desc  string // what it shows, in a sentence or two
	Lang  string // language of its words, a tag of BCP 47; "en" when empty
}

// lang returns the language.
func (d Description) lang() string { return cmp.Or(d.Lang, "en") }

// tag is the shape of a language tag: subtags of up to eight letters and
// digits (RFC 5646, section 2.1).
var tag = regexp.MustCompile(`^[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8})*$`)

// check returns an error unless the description can stand in a file.
func (d Description) check() error {
	if strings.TrimSpace(d.Title) == "" {
		return errors.New("press: a picture without a title cannot be told from others by those who do not see it; give Description.Title")
	}
	if !tag.MatchString(d.lang()) {
		return fmt.Errorf("press: language %q of the picture; want a tag such as en or pt-BR", d.Lang)
	}
	return nil
}
