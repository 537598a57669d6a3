package comparison

import (
	"fmt"
	"math"
	"strings"

	"weekband/cmd/weekband/internal/cause"
	"weekband/cmd/weekband/internal/usage"
)

// windowPair is a window of each edition that are compared.
type windowPair struct{ before, after cause.Window }

// sameThreshold is how far apart, in K, thresholds are that count as one.
const sameThreshold = 0.05

// paired returns the windows to compare: the two that are asked for, or those
// with one id, then those that have another id and agree in direction and
// threshold with exactly one. notes tell what was paired so and what is left.
func paired(older, newer *builtEdition, asked []string) (pairs []windowPair, notes []string, err error) {
	if len(asked) == 2 {
		p, err := askedPair(older, newer, asked)
		return []windowPair{p}, nil, err
	}
	var alone []cause.Window
	used := map[string]bool{}
	for _, b := range newer.made.Windows {
		a, ok := older.made.WindowByID(b.ID)
		switch {
		case ok && a.Direction == b.Direction:
			pairs, used[a.ID] = append(pairs, windowPair{a, b}), true
		case ok:
			used[a.ID] = true
			notes = append(notes, fmt.Sprintf("window %s is %v in one edition and %v in the other: not compared", b.ID, a.Direction, b.Direction))
		default:
			alone = append(alone, b)
		}
	}
	for _, b := range alone {
		a, ok := alike(older.made.Windows, used, b)
		if _, also := alike(alone, nil, b); !ok || !also {
			notes = append(notes, fmt.Sprintf("window %s is only in the newer edition", b.ID))
			continue
		}
		pairs, used[a.ID] = append(pairs, windowPair{a, b}), true
		notes = append(notes, fmt.Sprintf("window %s is compared with %s of the older edition: both are %v to %s", b.ID, a.ID, b.Direction, b.Threshold.Both()))
	}
	for _, a := range older.made.Windows {
		if !used[a.ID] {
			notes = append(notes, fmt.Sprintf("window %s is only in the older edition", a.ID))
		}
	}
	if len(pairs) == 0 {
		err = fmt.Errorf("%s has %s, %s has %s: none are alike; name two to compare with --windows A,B", older.dir, windowNames(older), newer.dir, windowNames(newer))
	}
	return pairs, notes, err
}

// alike returns the only window, not used yet, that has the direction and
// threshold of another.
func alike(list []cause.Window, used map[string]bool, w cause.Window) (found cause.Window, only bool) {
	n := 0
	for _, o := range list {
		if !used[o.ID] && o.Direction == w.Direction && math.Abs(float64(o.Threshold-w.Threshold)) < sameThreshold {
			found = o
			n++
		}
	}
	return found, n == 1
}

// askedPair returns the two windows that the command line names.
func askedPair(older, newer *builtEdition, asked []string) (p windowPair, err error) {
	for i, side := range []struct {
		from *builtEdition
		to   *cause.Window
	}{{older, &p.before}, {newer, &p.after}} {
		w, ok := side.from.made.WindowByID(asked[i])
		if !ok {
			return p, usage.Errorf("window %q: %s has %s", asked[i], side.from.dir, windowNames(side.from))
		}
		*side.to = w
	}
	if p.before.Direction != p.after.Direction {
		return p, usage.Errorf("%s is %v and %s is %v: the weeks of two seasons have no shift to tell", asked[0], p.before.Direction, asked[1], p.after.Direction)
	}
	return p, nil
}

func windowNames(p *builtEdition) string {
	var ids []string
	for _, w := range p.made.Windows {
		ids = append(ids, w.ID)
	}
	return strings.Join(ids, ", ")
}
