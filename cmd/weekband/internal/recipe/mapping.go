package recipe

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/goccy/go-yaml/ast"

	"weekband/grid/units"
	"weekband/regions/naming"
)

// index is the ordinal of a mapping in a list, as in windows[2].
var index = regexp.MustCompile(`\[\d+\]`)

// mapping reads the keys of one YAML mapping. It remembers which keys were
// asked for: finish reports the others as unknown.
type mapping struct {
	doc     *document
	node    ast.Node
	path    string
	entries map[string]*ast.MappingValueNode
	order   []string
	asked   []string
}

func (m *mapping) name() string {
	if m.path == "" {
		return "the recipe"
	}
	return m.path
}

// find returns the value of a key, nil when absent or empty.
func (m *mapping) find(key string) ast.Node {
	m.asked = append(m.asked, key)
	m.doc.keys[index.ReplaceAllString(m.below(key), "[]")] = true
	entry, ok := m.entries[key]
	if !ok {
		return nil
	}
	if _, null := entry.Value.(*ast.NullNode); null || entry.Value == nil {
		return nil
	}
	return entry.Value
}

// problem notes what is wrong with the value of a key.
func (m *mapping) problem(key, format string, args ...any) {
	at := m.node
	if entry, ok := m.entries[key]; ok {
		at = entry.Value
	}
	m.doc.note(at, format, args...)
}

func (m *mapping) missing(key, want string) {
	m.doc.note(m.node, "%s lacks the key %s: want %s", m.name(), key, want)
}

// text returns the value of a key that holds one value.
func (m *mapping) text(key, fallback string) string {
	node := m.find(key)
	if node == nil {
		return fallback
	}
	text, ok := scalar(node)
	if !ok {
		m.doc.note(node, "%s: want one value, found %s", key, describe(node))
		return fallback
	}
	if odd := naming.Odd(text); odd != 0 {
		m.doc.note(node, "%s holds the control character U+%04X, which cannot be printed; leave it out", key, odd)
	}
	if n := utf8.RuneCountInString(text); n > mostText {
		m.doc.note(node, "%s has %d letters; want at most %d", key, n, mostText)
	}
	return naming.Plain(text)
}

// mostText is how many letters any value may have, such as the credits.
const mostText = 1000

// title returns the value of the key title, which is printed large.
func (m *mapping) title() string {
	text := m.requiredText("title")
	if n := utf8.RuneCountInString(text); n > naming.Most {
		m.problem("title", "title has %d letters; want at most %d", n, naming.Most)
	}
	return text
}

// isText reports whether a key holds one value.
func (m *mapping) isText(key string) bool {
	entry, ok := m.entries[key]
	if !ok {
		return false
	}
	_, text := scalar(entry.Value)
	return text
}

func (m *mapping) requiredText(key string) string {
	text := m.text(key, "")
	if entry, ok := m.entries[key]; text == "" && (!ok || m.find(key) == nil || isEmpty(entry.Value)) {
		m.missing(key, "a value, "+key+": …")
	}
	return text
}

func isEmpty(node ast.Node) bool {
	text, ok := scalar(node)
	return ok && text == ""
}

// texts returns the values of a key that holds one value or a list of them.
func (m *mapping) texts(key string) []string {
	node := m.find(key)
	if node == nil {
		return nil
	}
	nodes := []ast.Node{node}
	if list, ok := node.(*ast.SequenceNode); ok {
		nodes = list.Values
	}
	var out []string
	for _, n := range nodes {
		text, ok := scalar(n)
		if !ok || text == "" {
			m.doc.note(n, "%s: want one value or a list of values, found %s", key, describe(n))
			continue
		}
		out = append(out, text)
	}
	return out
}

// mapping returns the mapping a key holds, nil when absent.
func (m *mapping) mapping(key string) *mapping {
	node := m.find(key)
	if node == nil {
		return nil
	}
	return m.doc.mapping(node, m.below(key))
}

func (m *mapping) requiredMapping(key string) *mapping {
	if m.find(key) == nil {
		m.missing(key, "a mapping, such as "+key+": {…}")
		return nil
	}
	return m.mapping(key)
}

// mappings returns the mappings of a key that holds a list of them or one.
func (m *mapping) mappings(key string) []*mapping {
	node := m.find(key)
	if node == nil {
		return nil
	}
	list, ok := node.(*ast.SequenceNode)
	if !ok {
		if one := m.doc.mapping(node, m.below(key)); one != nil {
			return []*mapping{one}
		}
		return nil
	}
	var out []*mapping
	for i, n := range list.Values {
		if one := m.doc.mapping(n, m.below(key)+"["+strconv.Itoa(i+1)+"]"); one != nil {
			out = append(out, one)
		}
	}
	return out
}

func (m *mapping) below(key string) string {
	if m.path == "" {
		return key
	}
	return m.path + "." + key
}

// choice runs what belongs to the word a key holds.
func (m *mapping) choice(key, fallback string, words map[string]func()) {
	text := m.text(key, fallback)
	if run, ok := words[text]; ok {
		run()
		return
	}
	var valid []string
	for w := range words {
		valid = append(valid, w)
	}
	m.problem(key, "%s %q: want %s%s", key, text, orList(valid), suggestion(text, valid))
}

// temperature reads a temperature with its unit within plausible bounds.
func (m *mapping) temperature(key string, required bool) (units.Celsius, bool) {
	text := m.text(key, "")
	if text == "" {
		if required {
			m.missing(key, "a temperature with its unit, such as 55 °F or 12.8 °C")
		}
		return 0, false
	}
	c, err := units.Parse(text)
	if err != nil {
		m.problem(key, "%s: %v", key, err)
		return 0, false
	}
	if c < coldest || c > warmest {
		m.problem(key, "%s %s is outside %s to %s; is the unit right?", key, c.Both(), coldest.Both(), warmest.Both())
		return 0, false
	}
	return c, true
}

// days reads a number of days within bounds.
func (m *mapping) days(key string, fallback, least, most float64) float64 {
	text := m.text(key, "")
	if text == "" {
		return fallback
	}
	days, err := units.ParseDays(text)
	if err != nil {
		m.problem(key, "%s: %v", key, err)
		return fallback
	}
	if days < least || days > most {
		m.problem(key, "%s %q: want %v d to %v d", key, text, least, most)
		return fallback
	}
	return days
}

// number reads a bare number from least to most.
func (m *mapping) number(key string, fallback, least, most float64) float64 {
	text := m.text(key, "")
	if text == "" {
		return fallback
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || !(v >= least && v <= most) {
		m.problem(key, "%s %q: want a number from %v to %v", key, text, least, most)
		return fallback
	}
	return v
}

// whole reads a whole number from least to most.
func (m *mapping) whole(key string, fallback, least, most int) int {
	text := m.text(key, "")
	if text == "" {
		return fallback
	}
	v, err := strconv.Atoi(text)
	if err != nil || v < least || v > most {
		m.problem(key, "%s %q: want a whole number from %d to %d", key, text, least, most)
		return fallback
	}
	return v
}

// percent reads a share written as "25 %".
func (m *mapping) percent(key string, fallback float64) float64 {
	text := m.text(key, "")
	if text == "" {
		return fallback
	}
	number, found := strings.CutSuffix(text, "%")
	v, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
	if !found || err != nil || !(v > 0 && v < 100) {
		m.problem(key, "%s %q: want a share between 0 %% and 100 %%, such as 25 %%", key, text)
		return fallback
	}
	return v
}

// finish reports the keys nobody asked for, each with the nearest valid one.
func (m *mapping) finish() {
	for _, key := range m.order {
		if !slices.Contains(m.asked, key) {
			hint := suggestion(key, m.asked)
			if hint == "" {
				hint = "; valid are " + orList(m.asked)
			}
			m.doc.note(m.entries[key].Key, "unknown key %q in %s%s", key, m.name(), hint)
		}
	}
}
