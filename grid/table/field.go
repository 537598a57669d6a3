package table

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Text returns a field without surrounding blanks. It shares memory with its
// whole row: clone what is to stay (strings.Clone).
func (t *Table) Text(c Column) string {
	if i := int(c) - 1; uint(i) < uint(len(t.row)) {
		return strings.TrimSpace(t.row[i])
	}
	return ""
}

// Key returns the field that tells a row from all others; ok is false when it
// is empty or was there before, which is noted. It is for one column of a
// table.
func (t *Table) Key(c Column) (key string, ok bool) {
	key = t.Text(c)
	if key == "" {
		t.Fault("the %s is empty; want one of its own for every row", t.title(c))
		return "", false
	}
	if before, twice := t.keys[key]; twice {
		t.Fault("%s %q is already on line %d; want it once", t.title(c), clip(key, 80), before)
		return "", false
	}
	key = strings.Clone(key)
	t.keys[key] = t.line
	return key, true
}

// title is the name of a column for messages.
func (t *Table) title(c Column) string {
	if c == 0 {
		return "column"
	}
	return t.head[c-1]
}

// Number says which numbers a field may hold.
type Number struct {
	Low, High float64 // both may be
	Unit      string  // for messages, such as "°C"; may be empty
	Whole     bool    // only whole numbers; 3.0 is one
	Optional  bool    // an empty field is no mistake
	Hint      string  // what to do about any other number; may be empty
}

// String returns the range with its unit, "-90 to 60 °C".
func (n Number) String() string {
	text := strconv.FormatFloat(n.Low, 'f', -1, 64) + " to " + strconv.FormatFloat(n.High, 'f', -1, 64)
	if n.Unit != "" {
		text += " " + n.Unit
	}
	return text
}

// Number reads a field. ok is false when the column is not there or an
// optional field is empty, and after a mistake, which is noted: something that
// is no number, NaN included, or one that may not be.
func (t *Table) Number(c Column, want Number) (v float64, ok bool) {
	text := t.Decimal(c)
	if text == "" && (c == 0 || want.Optional) {
		return 0, false
	}
	v, err := strconv.ParseFloat(text, 64)
	if err == nil && v >= want.Low && v <= want.High && (!want.Whole || v == math.Trunc(v)) {
		return v, true
	}
	t.Fault("%w", want.refuse(t.title(c), clip(text, 80), v, err))
	return 0, false
}

// refuse says why a field does not hold such a number.
func (n Number) refuse(column, text string, v float64, err error) error {
	hint, one := "", "one"
	if n.Hint != "" {
		hint = "; " + n.Hint
	}
	if n.Whole {
		one = "a whole one"
	}
	if _, mended := mend(text); mended && err != nil {
		hint = "; write a decimal point, or separate all columns by semicolons"
	}
	switch {
	case err != nil && !errors.Is(err, strconv.ErrRange):
		return fmt.Errorf("%s %q is not a number; want %s from %v%s", column, text, one, n, hint)
	case v >= n.Low && v <= n.High:
		return fmt.Errorf("%s %s is not a whole number; want one from %v%s", column, text, n, hint)
	}
	return fmt.Errorf("%s %s is outside %v%s", column, text, n, hint)
}
