package regions

import (
	"bytes"
	"cmp"
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"weekband/regions/naming"
)

// identify gives features their ids and names and merges those that are one
// region.
func identify(features []feature, file string, o Options, found *findings) ([]Region, error) {
	var out []Region
	at, alike := map[string]int{}, map[string]bool{}
	for i, f := range features {
		id, err := idOf(features, i, file, o)
		if err != nil {
			return nil, err
		}
		name, err := nameOf(features, i, id, file, o)
		if err != nil {
			return nil, err
		}
		within := ""
		if o.Within != "" {
			if within, err = property(features, i, o.Within, file); err != nil {
				return nil, err
			}
		}
		for _, text := range []*string{&id, &name, &within} {
			if line := naming.Plain(*text); line != *text {
				found.add(f.where, "names or ids held control characters, which were left out")
				*text = line
			}
		}
		name = cmp.Or(name, id)
		if n := utf8.RuneCountInString(longer(id, name)); n > naming.Most {
			return nil, fmt.Errorf("%s: %s has an id or name of %d letters, %q; want at most %d: choose another property (id: …, name: …); there are %s",
				file, f.where, n, excerpt([]byte(longer(id, name))), naming.Most, listed(propertyKeys(features)))
		}
		j, known := at[id]
		switch {
		case id == "":
			return nil, fmt.Errorf("%s: %s has an id of nothing but control characters; give it one that can be read", file, f.where)
		case !known:
			at[id] = len(out)
			if like := strings.Join(strings.Fields(strings.ToLower(id)), " "); alike[like] {
				found.add(f.where, "ids differ from an earlier one in capitals or blanks only, and are regions of their own")
			} else {
				alike[like] = true
			}
			out = append(out, Region{ID: id, Name: name, Within: within, Shape: f.shape, Bounds: BoundsOf(f.shape)})
		case out[j].Name == name:
			found.add(f.where, "features repeated the id and name of an earlier one and were joined to it")
			out[j].Shape = append(out[j].Shape, f.shape...)
			out[j].Bounds = BoundsOf(out[j].Shape)
		default:
			return nil, fmt.Errorf("%s: %s: id %q is both %q and %q; choose a property whose values differ (id: …); there are %s",
				file, f.where, id, out[j].Name, name, listed(propertyKeys(features)))
		}
	}
	return out, nil
}

func longer(a, b string) string {
	if len(b) > len(a) {
		return b
	}
	return a
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

// listed writes keys one after the other, for messages.
func listed(keys []string) string { return naming.Plain(strings.Join(keys, ", ")) }

// kindOf names a JSON value that is no text nor number, "" for one that is and
// for null.
func kindOf(raw json.RawMessage) string {
	switch {
	case bytes.HasPrefix(raw, []byte("{")):
		return "an object"
	case bytes.HasPrefix(raw, []byte("[")):
		return "a list"
	case bytes.Equal(raw, []byte("true")), bytes.Equal(raw, []byte("false")):
		return string(raw)
	}
	return ""
}

// given reports whether a member is there and not null.
func given(raw json.RawMessage) bool { return len(raw) > 0 && !bytes.Equal(raw, []byte("null")) }

// plain writes a JSON value as text: strings without blanks around them,
// numbers in full, "" for anything else. Whole numbers keep all their digits.
func plain(raw json.RawMessage) string {
	if len(raw) == 0 {
		return ""
	}
	switch c := raw[0]; {
	case c == '"':
		var text string
		if json.Unmarshal(raw, &text) == nil {
			return strings.TrimSpace(text)
		}
	case c == '-' || c >= '0' && c <= '9':
		if !bytes.ContainsAny(raw, ".eE") {
			return string(raw)
		}
		if v, err := strconv.ParseFloat(string(raw), 64); err == nil {
			return strconv.FormatFloat(v, 'f', -1, 64)
		}
	}
	return ""
}
