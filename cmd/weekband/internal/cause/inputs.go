package cause

import (
	"fmt"
	"slices"
	"strings"
)

// parts are the inputs by their role, in the order in which they are told.
var parts = []struct {
	role  string
	kind  Kind
	what  string
	plain string
	moves bool
}{
	{"normals", Normals, "normals", "other normals", true},
	{"terrain", Terrain, "terrain", "another terrain", true},
	{"calibration", Calibration, "calibration", "another calibration of soil against air", true},
	{"sd", Spread, "standard deviations from year to year", "", false}, // they move on time, not the typical day
	{"regions", Regions, "outlines of regions", "", false},
	{"places", Inputs, "places", "", false},
	{"logo", Inputs, "logo", "", false},
}

// inputs compares the files, by role where both manifests tell it.
func (d *differences) inputs() {
	if d.a.roles() && d.b.roles() {
		for _, p := range parts {
			if text, differ := replaced(d.a.byRole(p.role), d.b.byRole(p.role)); differ {
				if p.kind == Normals && d.a.Period != d.b.Period {
					text = d.periods() + "; " + text
				}
				d.add(Cause{Kind: p.kind, Moves: p.moves, Plain: p.plain, Text: "other " + p.what + ": " + text})
			}
		}
		return
	}
	text, differ := replaced(d.a.Inputs, d.b.Inputs)
	switch {
	case differ && d.a.Period != d.b.Period:
		d.add(Cause{Kind: Normals, Moves: true, Plain: "other normals", Text: "other normals: " + d.periods() + "; " + text})
	case differ:
		d.add(Cause{Kind: Inputs, Moves: true, Plain: "other input data", Text: "other input files: " + text})
	case d.a.Period != d.b.Period:
		d.add(Cause{Kind: Inputs, Text: "another period of the same normals, as printed: " + d.periods()})
	}
}

func (d *differences) periods() string {
	return orNone(d.b.Period) + " in place of " + orNone(d.a.Period)
}

// replaced tells which files differ: by their contents, whatever they are
// called. The recipe's own file is passed over.
func replaced(a, b []Input) (text string, differ bool) {
	var changed, left, added []string
	for _, in := range b {
		switch {
		case in.own() || contains(a, in):
		case slices.ContainsFunc(a, func(o Input) bool { return o.Name == in.Name }):
			changed = append(changed, in.Name)
		default:
			added = append(added, in.Name)
		}
	}
	for _, in := range a {
		if !in.own() && !contains(b, in) && !slices.Contains(changed, in.Name) {
			left = append(left, in.Name)
		}
	}
	var said []string
	if len(changed) > 0 {
		said = append(said, few(changed)+" with other contents")
	}
	switch {
	case len(added) > 0 && len(left) > 0:
		said = append(said, few(added)+" in place of "+few(left))
	case len(added) > 0:
		said = append(said, few(added)+" added")
	case len(left) > 0:
		said = append(said, few(left)+" left out")
	}
	return strings.Join(said, ", "), len(said) > 0
}

// contains reports whether a list holds a file of the same contents.
func contains(list []Input, in Input) bool {
	return slices.ContainsFunc(list, func(o Input) bool { return !o.own() && o.SHA256 == in.SHA256 })
}

// few names up to three files and counts the others.
func few(names []string) string {
	const most = 3
	if len(names) <= most {
		return strings.Join(names, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(names[:most-1], ", "), len(names)-most+1)
}
