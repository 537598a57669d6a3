package main

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"errors"
	"io"
	"maps"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"weekband/grid/oracle"
)

// shape counts what a page is made of: elements, attributes of elements, and
// comments.
type shape map[string]int

// shapeOf parses pages as browsers do (HTML Living Standard) and adds up their
// shapes. visit sees every element.
func shapeOf(t *testing.T, name string, text []byte, into shape, visit func(*html.Node)) {
	t.Helper()
	doc, err := html.Parse(bytes.NewReader(text))
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	for n := range doc.Descendants() {
		switch n.Type {
		case html.CommentNode:
			into["comment"]++
		case html.ElementNode:
			into[n.Data]++
			for _, a := range n.Attr {
				into[n.Data+"["+a.Key+"]"]++
			}
			visit(n)
		}
	}
}

// Pages with hostile names have exactly the elements and attributes, each as
// often, as those with harmless names, and no address leads elsewhere.
func TestHostileNamesInPages(t *testing.T) {
	evil, twin, _ := hostileEditions(t)
	shapes := map[string]map[string]shape{}
	for _, dir := range []string{evil, twin} {
		shapes[dir] = map[string]shape{}
		for name, text := range files(t, dir) {
			if !strings.HasSuffix(name, ".html") {
				continue
			}
			kind := name
			if folder := path.Dir(name); folder != "." && path.Base(name) != "index.html" {
				kind = folder
			}
			if shapes[dir][kind] == nil {
				shapes[dir][kind] = shape{}
			}
			shapeOf(t, name, text, shapes[dir][kind], func(n *html.Node) { checkElement(t, name, n, shapes[dir][kind]) })
		}
	}
	for kind, want := range shapes[twin] {
		got := shapes[evil][kind]
		keys := map[string]bool{}
		for key := range maps.Keys(want) {
			keys[key] = true
		}
		for key := range maps.Keys(got) {
			keys[key] = true
		}
		for _, key := range slices.Sorted(maps.Keys(keys)) {
			if lines := strings.HasPrefix(key, "text") || strings.HasPrefix(key, "tspan"); lines && got[key] > 0 {
				continue // long names take two lines on maps
			}
			if got[key] != want[key] {
				t.Errorf("%s: %d × %s, %d with harmless names", kind, got[key], key, want[key])
			}
		}
	}
	if len(shapes[twin]) < 6 {
		t.Errorf("only pages of the kinds %v", slices.Collect(maps.Keys(shapes[twin])))
	}
}

// checkElement refuses attributes that are scripts, addresses that are not of
// the edition, and structured data that do not parse. HTML to copy is checked
// as a page of its own and adds to the shape.
func checkElement(t *testing.T, name string, n *html.Node, into shape) {
	t.Helper()
	for _, a := range n.Attr {
		if strings.HasPrefix(a.Key, "on") {
			t.Errorf("%s: <%s %s=%q>", name, n.Data, a.Key, a.Val)
		}
		if slices.Contains([]string{"href", "src", "action", "srcset", "poster", "data", "formaction"}, a.Key) {
			scheme, _, found := strings.Cut(a.Val, ":")
			if found && scheme != "https" && !strings.ContainsAny(scheme, "/?#.") {
				t.Errorf("%s: <%s %s=%q>", name, n.Data, a.Key, a.Val)
			}
		}
	}
	if n.FirstChild == nil {
		return
	}
	switch text := n.FirstChild.Data; {
	case n.Data == "script" && slices.ContainsFunc(n.Attr, func(a html.Attribute) bool { return a.Key == "type" && strings.Contains(a.Val, "json") }):
		if !json.Valid([]byte(text)) {
			t.Errorf("%s: script that is no JSON: %.80s", name, text)
		}
	case n.Data == "textarea" || n.Data == "code" || n.Data == "pre":
		copied := shape{}
		shapeOf(t, name+": to copy", []byte(text), copied, func(n *html.Node) { checkElement(t, name+": to copy", n, copied) })
		for key, n := range copied {
			into["to copy: "+key] += n
		}
	}
}

// Drawings, the feed and the sitemap are well-formed XML of no elements and
// attributes that those with harmless names lack; titles come back whole.
func TestHostileNamesInXML(t *testing.T) {
	evil, twin, _ := hostileEditions(t)
	kinds := map[string]map[string]bool{}
	for _, dir := range []string{twin, evil} {
		for name, text := range files(t, dir) {
			ext := path.Ext(name)
			if ext != ".svg" && ext != ".xml" {
				continue
			}
			if kinds[name] == nil {
				kinds[name] = map[string]bool{}
			}
			texts := ""
			dec := xml.NewDecoder(bytes.NewReader(text))
			for {
				token, err := dec.Token()
				if errors.Is(err, io.EOF) {
					break
				}
				if err != nil {
					t.Fatalf("%s: %v", name, err)
				}
				switch e := token.(type) {
				case xml.StartElement:
					parts := []string{e.Name.Local}
					for _, a := range e.Attr {
						parts = append(parts, e.Name.Local+"["+a.Name.Local+"]")
					}
					for _, part := range parts {
						if dir == evil && !kinds[name][part] {
							t.Errorf("%s: %s, which harmless names do not give", name, part)
						}
						kinds[name][part] = true
					}
				case xml.CharData:
					texts += string(e) + "\n"
				}
			}
			if dir == evil && (strings.HasPrefix(name, "maps/") || name == "feed.xml") && !strings.Contains(texts, hostileTitle) {
				t.Errorf("%s lacks the title as it is", name)
			}
		}
	}
	if kinds["maps/spring.svg"] == nil || kinds["feed.xml"] == nil || kinds["sitemap.xml"] == nil {
		t.Errorf("only %v", slices.Collect(maps.Keys(kinds)))
	}
	for name := range kinds {
		oracle.Run(t, nil, "xmllint", "--noout", "--nonet", filepath.Join(evil, filepath.FromSlash(name)))
	}
}
