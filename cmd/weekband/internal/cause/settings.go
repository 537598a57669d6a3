package cause

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
)

// setting is one setting of a recipe in both editions, "" when it is not set.
type setting struct{ key, was, is string }

// recipe compares the settings, one by one.
func (d *differences) recipe(windows [][2]string) {
	told := len(d.a.Recipe) > 0 && len(d.b.Recipe) > 0
	var list []setting
	if told {
		list = resolved(of(d.a.Recipe, windows, 0), of(d.b.Recipe, windows, 1))
	} else {
		list = d.derived(windows)
	}
	var looks []string
	for _, s := range list {
		renamed := told && namesFiles(s.key) && d.a.roles() && d.b.roles() // or the inputs had told
		switch c := (Cause{Kind: Recipe, Text: "another recipe: " + s.String()}); {
		case d.toldByInputs(s.key):
		case moves(s.key) && !renamed:
			c.Moves, c.Plain = true, plain(s.key)
			d.add(c)
		case strings.HasPrefix(s.key, "windows") && !strings.HasSuffix(s.key, "title"):
			d.add(c)
		default:
			looks = append(looks, s.key)
		}
	}
	if len(looks) > 0 {
		d.add(Cause{Kind: Recipe, Text: "other settings: " + strings.Join(looks, ", ")})
	}
	if !told && len(Moving(d.list)) == 0 && d.rewritten() {
		d.add(Cause{Kind: Recipe, Moves: true, Text: "perhaps another recipe: its file differs, in a way that these manifests do not tell"})
	}
}

// String writes the setting, "soil.depth from 4 in to 2 in".
func (s setting) String() string {
	switch {
	case s.was == "":
		return s.key + " set to " + s.is
	case s.is == "":
		return s.key + " no longer set to " + s.was
	}
	return s.key + " from " + s.was + " to " + s.is
}

// of returns the settings that belong to what is compared: without those of
// other windows. Windows, named by the id in the edition of a side, are called as
// in the newer one.
func of(recipe map[string]string, windows [][2]string, side int) map[string]string {
	out := map[string]string{}
	for key, text := range recipe {
		rest, ok := strings.CutPrefix(key, "windows[")
		if !ok {
			if key != "edition" { // tells the two apart, and is told as their names
				out[key] = text
			}
			continue
		}
		for _, pair := range windows {
			if name, ok := strings.CutPrefix(rest, pair[side]+"]."); ok && name != "id" {
				out["windows["+pair[1]+"]."+name] = text
			}
		}
	}
	return out
}

// resolved returns the settings that differ, by key.
func resolved(a, b map[string]string) (out []setting) {
	keys := maps.Clone(a)
	maps.Copy(keys, b)
	for _, key := range slices.Sorted(maps.Keys(keys)) {
		if a[key] != b[key] {
			out = append(out, setting{key, a[key], b[key]})
		}
	}
	return out
}

// derived returns settings that older manifests tell by the way.
func (d *differences) derived(windows [][2]string) (out []setting) {
	compare := func(key, was, is string) {
		if was != is {
			out = append(out, setting{key, was, is})
		}
	}
	const at = "soil at " // as the catalogue of every edition yet has it
	was, soilBefore := strings.CutPrefix(d.a.Soil, at)
	is, soilAfter := strings.CutPrefix(d.b.Soil, at)
	if soilBefore && soilAfter {
		compare("soil.depth", was, is)
	} else {
		compare("soil", d.a.Soil, d.b.Soil)
	}
	compare("grid", d.a.Grid, d.b.Grid)
	unit := func(told string) string { scale, _, _ := strings.Cut(told, ":"); return scale } // what follows is how it was told
	compare("normals.unit", unit(d.a.Unit), unit(d.b.Unit))
	number := func(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
	for _, pair := range windows {
		a, inA := d.a.WindowByID(pair[0])
		b, inB := d.b.WindowByID(pair[1])
		if !inA || !inB {
			continue
		}
		key := "windows[" + pair[1] + "]."
		compare(key+"threshold", a.Threshold.Both(), b.Threshold.Both())
		compare(key+"direction", a.Direction.String(), b.Direction.String())
		compare(key+"starts", a.Starts.Both(), b.Starts.Both())
		compare(key+"residual", number(a.HalfLife)+" d", number(b.HalfLife)+" d")
		compare(key+"q10", number(a.Q10), number(b.Q10))
		compare(key+"reference", a.Reference.Both(), b.Reference.Both())
		compare(key+"ahead", number(a.Ahead)+" d", number(b.Ahead)+" d")
		compare(key+"floor", number(a.Floor), number(b.Floor))
	}
	return out
}

// moves reports whether a setting can move the typical week of a cell.
func moves(key string) bool {
	if strings.HasSuffix(key, "period") {
		return false
	}
	for _, part := range []string{"normals", "soil", "terrain", "grid"} {
		if key == part || strings.HasPrefix(key, part+".") {
			return true
		}
	}
	return strings.HasPrefix(key, "windows") && (strings.HasSuffix(key, "threshold") || strings.HasSuffix(key, "direction"))
}

// plain says to readers of maps which setting differs.
func plain(key string) string {
	switch {
	case key == "soil" || strings.HasSuffix(key, "depth"):
		return "another depth of soil"
	case strings.HasPrefix(key, "soil"):
		return "soil worked out from air in another way"
	case strings.HasSuffix(key, "threshold"):
		return "another threshold"
	case strings.HasPrefix(key, "grid"):
		return "cells of another size or place"
	case strings.HasPrefix(key, "normals"):
		return "normals read in another way"
	}
	return "another setting"
}

// namesFiles reports whether a setting names files.
func namesFiles(key string) bool {
	return slices.Contains([]string{"normals.files", "normals.sites", "normals.values", "terrain", "soil.calibration"}, key)
}

// toldByInputs reports whether a setting only names a file whose change is told
// already.
func (d *differences) toldByInputs(key string) bool {
	for kind, keys := range map[Kind][]string{
		Normals: {"normals.files", "normals.sites", "normals.values", "normals.period"}, Spread: {"normals.sd"}, Terrain: {"terrain"},
		Calibration: {"soil.calibration"}, Inputs: {"normals.files", "normals.sites", "normals.values", "normals.period", "normals.sd", "terrain", "soil.calibration", "places", "logo"},
	} {
		if d.has(kind) && slices.Contains(keys, key) {
			return true
		}
	}
	return d.has(Regions) && strings.HasPrefix(key, "regions")
}

// rewritten reports whether the recipes' own files differ.
func (d *differences) rewritten() bool {
	own := func(m *Manifest) string {
		for _, in := range m.Inputs {
			if in.own() {
				return in.SHA256
			}
		}
		return ""
	}
	return own(d.a) != own(d.b)
}

// Sentence joins the moving causes in plain words: "other normals and another
// setting"; "" without any.
func Sentence(list []Cause) string {
	var said []string
	for _, c := range list {
		if c.Plain != "" && !slices.Contains(said, c.Plain) {
			said = append(said, c.Plain)
		}
	}
	switch n := len(said); n {
	case 0:
		return ""
	case 1:
		return said[0]
	default:
		return fmt.Sprintf("%s and %s", strings.Join(said[:n-1], ", "), said[n-1])
	}
}
