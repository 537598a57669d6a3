package manual

import (
	"fmt"
	"slices"
	"strings"

	"weekband/cmd/weekband/internal/nearest"
	"weekband/cmd/weekband/internal/recipe"
)

// recipePage tells of every key of a recipe, and has a whole one.
func recipePage(t Topic) *Page {
	p := &Page{Name: t.Name, Summary: t.Summary}
	p.sections = parse(t.Name, func(name string) []section {
		switch name {
		case "example":
			lines := strings.Split(strings.TrimSuffix(recipe.Example, "\n"), "\n")
			return []section{{blocks: []block{{lines: lines}}}}
		case "keys":
			return keySections(recipe.Keys())
		}
		return nil
	})
	return p
}

// keySections lists keys under the titles of their topics.
func keySections(keys []recipe.Key) []section {
	list := []section{{}}
	for _, k := range keys {
		if k.Topic != list[len(list)-1].title {
			list = append(list, section{title: k.Topic, keys: true})
		}
		last := &list[len(list)-1]
		last.blocks = append(last.blocks, block{
			term: k.Path,
			text: fmt.Sprintf("%s\nValue: %s. Default: %s.", k.Meaning, k.Value, k.Default),
		})
	}
	return list
}

// Keys returns a page with the keys of a recipe that have one of the names: a
// whole path, with the brackets of lists or without, or one or more of its
// parts, with what lies below. The error names the nearest when there is none.
func Keys(names []string) (*Page, error) {
	p := &Page{Name: recipeTopic, Summary: "Keys of a recipe."}
	all := recipe.Keys()
	var found []recipe.Key
	for _, name := range names {
		some := slices.DeleteFunc(slices.Clone(all), func(k recipe.Key) bool {
			path, wanted := "."+plainPath(k.Path)+".", "."+plainPath(name)+"."
			return !strings.Contains(path, wanted)
		})
		if len(some) == 0 {
			return nil, noKey(name, all)
		}
		found = append(found, some...)
	}
	p.sections = keySections(found)
	return p, nil
}

func plainPath(path string) string { return strings.ReplaceAll(path, "[]", "") }

func noKey(name string, all []recipe.Key) error {
	var words []string
	for _, k := range all {
		path := plainPath(k.Path)
		words = append(words, path)
		words = append(words, strings.Split(path, ".")...)
	}
	slices.Sort(words)
	if word, ok := nearest.Word(plainPath(name), slices.Compact(words)); ok {
		return fmt.Errorf("a recipe has no key %q; did you mean %q?", name, word)
	}
	return fmt.Errorf("a recipe has no key %q; weekband help recipe lists them", name)
}
