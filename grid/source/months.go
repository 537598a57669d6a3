package source

import (
	"fmt"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

// countError says that a number of files is neither 1 nor 12, and which
// months are there if the names tell.
func countError(paths []string) error {
	if len(paths) == 0 {
		return fmt.Errorf("normals: no files; want 12 of one month each, or one with 12 or 365 layers")
	}
	more := ""
	if months, ok := monthsOf(paths); ok {
		var missing []string
		for m := range 12 {
			if !slices.Contains(months, m+1) {
				missing = append(missing, time.Month(m+1).String())
			}
		}
		if len(missing) > 0 && len(missing) < 12 {
			more = "; by the names, " + strings.Join(missing, ", ") + " is missing"
		}
	}
	return fmt.Errorf("normals: %d files, from %s to %s; want 12 of one month each, or one with 12 or 365 layers%s",
		len(paths), paths[0], paths[len(paths)-1], more)
}

// monthOrder returns which path holds January, February and so on, by the
// names of the files. Names that do not tell are taken in sorted order, with
// a note.
func monthOrder(paths []string) (order []int, note string, err error) {
	months, ok := monthsOf(paths)
	if !ok {
		order = counting(len(paths))
		slices.SortStableFunc(order, func(a, b int) int { return strings.Compare(paths[a], paths[b]) })
		return order, fmt.Sprintf("the names of the 12 files do not tell the months; taken in sorted order, %s as January and %s as December",
			paths[order[0]], paths[order[11]]), nil
	}
	order = make([]int, 12)
	taken := [13]string{}
	for i, m := range months {
		if taken[m] != "" {
			return nil, "", fmt.Errorf("normals: %s and %s are both %v by their names%s", taken[m], paths[i], time.Month(m), missingMonths(months))
		}
		taken[m], order[m-1] = paths[i], i
	}
	return order, "", nil
}

func missingMonths(months []int) string {
	for m := range 12 {
		if !slices.Contains(months, m+1) {
			return fmt.Sprintf(", and %v is missing", time.Month(m+1))
		}
	}
	return ""
}

// monthsOf reads the month of each file from its name: a month's English
// name or its first three letters, else the only number that runs from 1 to
// 12. ok is false when the names do not tell clearly.
func monthsOf(paths []string) (months []int, ok bool) {
	names := make([]string, len(paths))
	for i, p := range paths {
		names[i] = strings.ToLower(filepath.Base(p))
		names[i] = strings.TrimSuffix(names[i], filepath.Ext(names[i]))
	}
	if months, ok = monthWords(names); ok {
		return months, true
	}
	return monthNumbers(names)
}

var words = regexp.MustCompile(`[a-z]+`)

// monthWord returns the month a word names, 0 if none.
func monthWord(word string) int {
	for m := time.January; m <= time.December; m++ {
		full := strings.ToLower(m.String())
		if word == full || word == full[:3] || word == "sept" && m == time.September {
			return int(m)
		}
	}
	return 0
}

// monthWords succeeds when every name holds exactly one month's name and
// they are not all the same.
func monthWords(names []string) ([]int, bool) {
	months := make([]int, len(names))
	for i, name := range names {
		for _, w := range words.FindAllString(name, -1) {
			m := monthWord(w)
			if m != 0 && months[i] != 0 && m != months[i] {
				return nil, false
			}
			months[i] = max(months[i], m)
		}
		if months[i] == 0 {
			return nil, false
		}
	}
	return months, varied(months)
}

var digits = regexp.MustCompile(`[0-9]+`)

// monthNumbers succeeds when exactly one place among the numbers of the
// names holds 1 to 12 in all of them and differs from name to name.
func monthNumbers(names []string) ([]int, bool) {
	numbers := make([][]int, len(names))
	for i, name := range names {
		for _, d := range digits.FindAllString(name, -1) {
			v, err := strconv.Atoi(d)
			if err != nil {
				v = -1 // too long for a month
			}
			numbers[i] = append(numbers[i], v)
		}
		if len(numbers[i]) != len(numbers[0]) {
			return nil, false
		}
	}
	var found []int
	for place := range numbers[0] {
		column := make([]int, len(names))
		for i := range names {
			column[i] = numbers[i][place]
		}
		if slices.Min(column) < 1 || slices.Max(column) > 12 || !varied(column) {
			continue
		}
		if found != nil {
			return nil, false
		}
		found = column
	}
	return found, found != nil
}

// varied reports whether not all numbers are the same.
func varied(v []int) bool { return len(v) > 0 && slices.Min(v) != slices.Max(v) }

// leapDay is the layer of 29 February in a year of 366, from 0.
const leapDay = 31 + 28

// layerOrder returns the layers of one file in order of the year. Times that
// the file gives decide; without them the layers are taken as they stand.
func layerOrder(l Layers) (order []int, note string, err error) {
	told, n := l.Describe(), l.Count()
	order = counting(n)
	switch n {
	case 365:
		return order, "", nil
	case 12:
	case 366:
		return slices.Delete(order, leapDay, leapDay+1), told.Name + ": 366 layers; layer 60, 29 February, is left out", nil
	default:
		return nil, "", fmt.Errorf("%s: %d layers; want 12 months or 365 or 366 days in one file, or 12 files of one layer each", told.Name, n)
	}
	months, how := told.Months, "times"
	if months == nil {
		if byName, ok := monthWords(lower(told.Names)); ok {
			months, how = byName, "names"
		}
	}
	if months == nil {
		return order, "", nil
	}
	for m := range 12 {
		i := slices.Index(months, m+1)
		if i < 0 {
			return counting(n), fmt.Sprintf("%s: the %s of the layers do not give each month once; taken as January to December in the order they stand", told.Name, how), nil
		}
		order[m] = i
	}
	return order, "", nil
}

func lower(names []string) []string {
	out := make([]string, len(names))
	for i, n := range names {
		out[i] = strings.ToLower(n)
	}
	return out
}

// counting returns 0, 1, … n−1.
func counting(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}
