package problem

import (
	"fmt"
	"strings"
)

// Shown is how many errors, and how many warnings behind them, a Report
// writes: a file with more has one cause.
const Shown = 20

// Report is what is wrong with the files of a run. The zero Report is empty.
// It is an error itself; see Err.
type Report struct {
	list  []entry
	more  int // that were found but not kept
	notes []string
}

type entry struct {
	group string // what it is about: the first of every group is shown
	must  bool   // shown before others for another reason
	err   error
}

// Add notes an error, which is about one group such as a file or a key. The
// parts of another Report are taken over with their own groups, those of
// joined errors one by one. Nil is no error. The words of the error stand as
// they are.
func (r *Report) Add(group string, err error) {
	if err == nil {
		return
	}
	if e, ok := err.(*Report); ok {
		r.list = append(r.list, e.list...)
		r.more += e.more
		r.Note(e.notes...)
		return
	}
	parts := Parts(err)
	if len(parts) == 1 {
		r.list = append(r.list, entry{group: group, err: err})
		return
	}
	for _, one := range parts {
		r.Add(group, one)
	}
}

// Parts returns the errors that were joined side by side into one, as by
// errors.Join, and any other error alone.
func Parts(err error) []error {
	joined, ok := err.(interface{ Unwrap() []error })
	if !ok {
		return []error{err}
	}
	parts := joined.Unwrap()
	var words []string
	for _, one := range parts {
		words = append(words, one.Error())
	}
	if strings.Join(words, "\n") != err.Error() { // one sentence about several causes
		return []error{err}
	}
	return parts
}

// AddFirst is Add for an error that is shown before others of its group.
func (r *Report) AddFirst(group string, err error) {
	r.list = append(r.list, entry{group: group, must: true, err: err})
}

// Count notes that so many further errors were found.
func (r *Report) Count(more int) { r.more += more }

// Note adds warnings: what was repaired, passed over or guessed. They are
// written behind all errors, and none without an error.
func (r *Report) Note(notes ...string) { r.notes = append(r.notes, notes...) }

// Err returns the Report as an error, nil when no error was noted.
func (r *Report) Err() error {
	if len(r.list) == 0 {
		return nil
	}
	return r
}

// Error writes the errors in the order they were noted, one or more lines
// each. When there are more than 20, the first of every group is among those
// shown, so that a table with many mistakes does not hide another file's; the
// others are counted.
func (r *Report) Error() string {
	var b strings.Builder
	show := r.chosen()
	for i, e := range r.list {
		if !show[i] {
			continue
		}
		if b.Len() > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(e.err.Error())
	}
	if hidden := r.more + max(0, len(r.list)-Shown); hidden > 0 {
		fmt.Fprintf(&b, "\nand %d more", hidden)
	}
	for i, n := range r.notes {
		if i == Shown {
			fmt.Fprintf(&b, "\nand %d more notes", len(r.notes)-Shown)
			break
		}
		b.WriteString("\nnote: " + n)
	}
	return b.String()
}

// chosen marks which errors are shown.
func (r *Report) chosen() []bool {
	show := make([]bool, len(r.list))
	left := Shown
	take := func(wanted func(entry) bool) {
		for i, e := range r.list {
			if left > 0 && !show[i] && wanted(e) {
				show[i] = true
				left--
			}
		}
	}
	seen := map[string]bool{}
	take(func(e entry) bool {
		first := !seen[e.group]
		seen[e.group] = true
		return first
	})
	take(func(e entry) bool { return e.must })
	take(func(entry) bool { return true })
	return show
}

// Unwrap returns all errors that were kept.
func (r *Report) Unwrap() []error {
	out := make([]error, len(r.list))
	for i, e := range r.list {
		out[i] = e.err
	}
	return out
}
