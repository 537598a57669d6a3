package recipe

import (
	"errors"
	"fmt"
	"strings"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/parser"
)

// document collects what is wrong with one recipe while it is read.
type document struct {
	name     string
	problems []Problem
	keys     map[string]bool // every key looked for, as normals.files or windows[].id
}

// parse returns the top mapping, or nil when the text is not YAML or holds
// something else; the problem is noted then.
func (d *document) parse(text []byte) *mapping {
	if text == nil {
		return nil
	}
	file, err := parser.ParseBytes(text, 0, parser.AllowDuplicateMapKey())
	if err != nil {
		d.syntax(err)
		return nil
	}
	if len(file.Docs) > 1 {
		d.note(file.Docs[1].Body, "a second document begins; want one recipe in a file, without a line ---")
		return nil
	}
	if len(file.Docs) == 0 || file.Docs[0].Body == nil {
		d.problems = append(d.problems, Problem{Text: "the recipe is empty; start with a line such as title: Spring soil warm-up"})
		return nil
	}
	return d.mapping(file.Docs[0].Body, "")
}

func (d *document) syntax(err error) {
	p := Problem{Text: "not valid YAML: " + err.Error()}
	if syntax, ok := errors.AsType[*yaml.SyntaxError](err); ok {
		p.Text = "not valid YAML: " + syntax.Message + advice(syntax.Message)
		if syntax.Token != nil {
			p.Line, p.Col = syntax.Token.Position.Line, syntax.Token.Position.Column
		}
	}
	d.problems = append(d.problems, p)
}

// advice says what to do about an error of syntax.
func advice(message string) string {
	switch {
	case strings.Contains(message, "\t"):
		return "; indent with blanks, not tabs"
	case strings.Contains(message, "end character"):
		return "; close the quote that is opened here, or put the value into the other kind of quotes"
	}
	return "; close every bracket, and put quotes around a value that holds : or # or begins with a mark"
}

// note adds a problem at a node; a nil node has no place.
func (d *document) note(at ast.Node, format string, args ...any) {
	p := Problem{Text: fmt.Sprintf(format, args...)}
	if at != nil && at.GetToken() != nil {
		p.Line, p.Col = at.GetToken().Position.Line, at.GetToken().Position.Column
	}
	d.problems = append(d.problems, p)
}

// mapping reads a node as a mapping; path names it in messages, "" at the top.
func (d *document) mapping(node ast.Node, path string) *mapping {
	m := &mapping{doc: d, node: node, path: path, entries: map[string]*ast.MappingValueNode{}}
	var values []*ast.MappingValueNode
	switch n := node.(type) {
	case *ast.MappingNode:
		values = n.Values
	case *ast.MappingValueNode:
		values = []*ast.MappingValueNode{n}
	default:
		d.note(node, "%s: want keys with values, such as key: value; found %s", m.name(), describe(node))
		return nil
	}
	for _, v := range values {
		key := v.Key.GetToken().Value
		if _, twice := m.entries[key]; twice {
			d.note(v.Key, "key %q stands twice in %s; want it once", key, m.name())
			continue
		}
		m.entries[key] = v
		m.order = append(m.order, key)
	}
	return m
}

// scalar returns the text of a node that is one value.
func scalar(node ast.Node) (string, bool) {
	switch n := node.(type) {
	case *ast.StringNode:
		return n.Value, true
	case *ast.LiteralNode:
		return strings.TrimSpace(n.Value.Value), true
	case *ast.IntegerNode, *ast.FloatNode, *ast.BoolNode, *ast.NanNode, *ast.InfinityNode:
		return n.GetToken().Value, true
	}
	return "", false
}

// describe names the kind of a node for messages.
func describe(node ast.Node) string {
	if text, ok := scalar(node); ok {
		return fmt.Sprintf("%q", text)
	}
	switch node.(type) {
	case *ast.SequenceNode:
		return "a list"
	case *ast.MappingNode, *ast.MappingValueNode:
		return "a mapping"
	case *ast.NullNode:
		return "nothing"
	case *ast.AnchorNode, *ast.AliasNode, *ast.TagNode:
		return "an anchor, alias or tag, which recipes do not use"
	}
	return "something else"
}

// err returns what is wrong, and beside it what was understood.
func (d *document) err(understood *Recipe) error {
	if len(d.problems) == 0 {
		return nil
	}
	p := newProblems(d.name, d.problems)
	p.Understood = understood
	return p
}
