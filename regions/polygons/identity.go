package polygons

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"weekband/regions"
	"weekband/regions/naming"
)

// identify gives features their ids and names and merges those that are one
// region.
func identify(features []feature, file string, o Options, found *findings) ([]regions.Region, error) {
	var out []regions.Region
	at, alike := map[string]int{}, map[string]bool{}
	for i, f := range features {
		r, err := described(features, i, file, o, found)
		if err != nil {
			return nil, err
		}
		j, known := at[r.ID]
		switch {
		case !known:
			at[r.ID] = len(out)
			like := strings.Join(strings.Fields(strings.ToLower(r.ID)), " ")
			if alike[like] {
				found.add(f.where, "ids differ from an earlier one in capitals or blanks only, and are regions of their own")
			}
			alike[like] = true
			r.Shape, r.Bounds = f.shape, regions.BoundsOf(f.shape)
			out = append(out, r)
		case out[j].Name == r.Name:
			found.add(f.where, "features repeated the id and name of an earlier one and were joined to it")
			out[j].Shape = append(out[j].Shape, f.shape...)
			out[j].Bounds = regions.BoundsOf(out[j].Shape)
		default:
			return nil, fmt.Errorf("%s: %s: id %q is both %q and %q; choose a property whose values differ (id: …); there are %s",
				file, f.where, r.ID, out[j].Name, r.Name, listed(propertyKeys(features)))
		}
	}
	return out, nil
}

// described returns feature i as a region without a shape: what it is called,
// in one line each.
func described(features []feature, i int, file string, o Options, found *findings) (r regions.Region, err error) {
	where := features[i].where
	if r.ID, err = idOf(features, i, file, o); err != nil {
		return r, err
	}
	if r.Name, err = nameOf(features, i, r.ID, file, o); err != nil {
		return r, err
	}
	if o.Within != "" {
		if r.Within, err = property(features, i, o.Within, file); err != nil {
			return r, err
		}
	}
	for _, text := range []*string{&r.ID, &r.Name, &r.Within} {
		if line := naming.Plain(*text); line != *text {
			found.add(where, "names or ids held control characters, which were left out")
			*text = line
		}
		if n := utf8.RuneCountInString(*text); n > naming.Most {
			return r, fmt.Errorf("%s: %s has an id or name of %d letters, %q; want at most %d: choose another property (id: …, name: …); there are %s",
				file, where, n, excerpt([]byte(*text)), naming.Most, listed(propertyKeys(features)))
		}
	}
	if r.ID == "" {
		return r, fmt.Errorf("%s: %s has an id of nothing but control characters; give it one that can be read", file, where)
	}
	r.Name = cmp.Or(r.Name, r.ID)
	return r, nil
}

func idOf(features []feature, i int, file string, o Options) (string, error) {
	f := features[i]
	if o.ID == "" {
		if f.id != "" {
			return f.id, nil
		}
		return strconv.Itoa(i + 1), nil
	}
	return property(features, i, o.ID, file)
}

func nameOf(features []feature, i int, id, file string, o Options) (string, error) {
	if o.Name != "" {
		return property(features, i, o.Name, file)
	}
	for _, key := range []string{"name", "NAME", "Name"} {
		if name := plain(features[i].properties[key]); name != "" {
			return name, nil
		}
	}
	return id, nil
}

// property returns what feature i has under a key. "id" falls back to the
// feature's own id.
func property(features []feature, i int, key, file string) (string, error) {
	f := features[i]
	if text := plain(f.properties[key]); text != "" {
		return text, nil
	}
	if key == "id" && f.id != "" {
		return f.id, nil
	}
	keys := propertyKeys(features)
	if kind := kindOf(f.properties[key]); kind != "" {
		return "", fmt.Errorf("%s: %s has %s for property %q; want a text or a number, as of another of %s",
			file, f.where, kind, key, listed(keys))
	}
	if slices.Contains(keys, key) {
		return "", fmt.Errorf("%s: %s has no value for property %q, others have; give it one or choose another of %s",
			file, f.where, key, listed(keys))
	}
	if len(keys) == 0 {
		return "", fmt.Errorf("%s: no feature has a property %q; there are no properties at all", file, key)
	}
	return "", fmt.Errorf("%s: no feature has a property %q; there are %s", file, key, listed(keys))
}

// propertyKeys lists the property keys of all features, sorted.
func propertyKeys(features []feature) []string {
	seen := map[string]bool{}
	for _, f := range features {
		for key := range f.properties {
			seen[key] = true
		}
	}
	return slices.Sorted(maps.Keys(seen))
}
