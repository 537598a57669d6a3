package survey

import (
	"fmt"
	"strconv"
	"strings"

	"weekband/cmd/weekband/internal/usage"
	"weekband/grid/weeks"
)

// Portion is what a build works out when other builds work out the rest: rows,
// or one of so many equal shares of them. The zero portion is everything.
type Portion struct {
	rows      weeks.Span
	share, of int // of is 0 without shares
}

// PortionOf reads the flags of a build, of which one at most is given.
func PortionOf(rows, share string) (p Portion, err error) {
	switch {
	case rows != "":
		p.rows.From, p.rows.To, err = twoNumbers(rows, ":")
		if err != nil || p.rows.From >= p.rows.To {
			return p, usage.Errorf("--rows %q names no rows; want FROM:TO, such as 0:200 for the 200 northernmost", rows)
		}
	case share != "":
		p.share, p.of, err = twoNumbers(share, "/")
		if err != nil || p.share >= p.of {
			return p, usage.Errorf("--share %q is none; want I/N with I from 0 to N-1, such as 0/16 for the first of 16", share)
		}
	}
	return p, nil
}

// twoNumbers reads two numbers from 0 on.
func twoNumbers(text, between string) (first, second int, err error) {
	left, right, _ := strings.Cut(text, between)
	a, err := strconv.ParseUint(left, 10, 31)
	if err != nil {
		return 0, 0, err
	}
	b, err := strconv.ParseUint(right, 10, 31)
	return int(a), int(b), err
}

// within returns the rows of a grid that are wanted. A share of fewer rows than
// shares may have none.
func (p Portion) within(rows int) (weeks.Span, error) {
	if p.of > 0 {
		return weeks.Span{From: p.share * rows / p.of, To: (p.share + 1) * rows / p.of}, nil
	}
	if p.rows.To > rows {
		return weeks.Span{}, usage.Errorf("--rows %s: the grid has %d rows; want rows within 0:%d", spanText(p.rows), rows, rows)
	}
	return p.rows, nil
}

// spanText writes rows as the flag has them.
func spanText(s weeks.Span) string { return fmt.Sprintf("%d:%d", s.From, s.To) }
