package manual

import (
	"embed"
	"fmt"
	"strings"
)

//go:embed texts
var texts embed.FS

// A text is written as paragraphs parted by blank lines, and:
//
//	# Title     begins a section
//	= Term      begins an item of a list; its text follows
//	    $ line  in four spaces stands as it is: a line of an example
//	@name       stands for texts/parts/name.txt, or what a page says of its
//	            command: @options, @commands
//
// Literal words stand between backticks.

// section is a part of a page under a title; the first has none.
type section struct {
	title  string
	blocks []block
	keys   bool // lists keys of a recipe
	column int  // of texts behind their terms, so that sections align; 0: its own
}

// block is a paragraph, an item of a list when it has a term, or lines that
// stand as they are.
type block struct {
	term, text string
	lines      []string
}

// filler gives the sections that stand for @name, nil when it knows none.
type filler func(name string) []section

// parse reads a text of this package.
func parse(name string, fill filler) []section {
	text, err := texts.ReadFile("texts/" + name + ".txt")
	if err != nil {
		panic(err) // the name is ours
	}
	list := []section{{}}
	for paragraph := range strings.SplitSeq(strings.Trim(string(text), "\n"), "\n\n") {
		last := &list[len(list)-1]
		title, isTitle := strings.CutPrefix(paragraph, "# ")
		part, isPart := strings.CutPrefix(paragraph, "@")
		switch {
		case isTitle:
			list = append(list, section{title: title})
		case isPart:
			list = join(list, filled(part, fill))
		default:
			last.blocks = append(last.blocks, blockOf(paragraph))
		}
	}
	return list
}

// filled returns the sections of a part.
func filled(name string, fill filler) []section {
	if fill != nil {
		if list := fill(name); list != nil {
			return list
		}
	}
	return parse("parts/"+name, fill)
}

// join appends sections; blocks before their first title go on with the last
// section of the list.
func join(list, more []section) []section {
	if len(more) > 0 && more[0].title == "" {
		last := &list[len(list)-1]
		last.blocks = append(last.blocks, more[0].blocks...)
		more = more[1:]
	}
	return append(list, more...)
}

func blockOf(paragraph string) block {
	if strings.HasPrefix(paragraph, "    ") {
		return block{lines: strings.Split(strings.ReplaceAll(paragraph[4:], "\n    ", "\n"), "\n")}
	}
	if rest, ok := strings.CutPrefix(paragraph, "= "); ok {
		term, text, found := strings.Cut(rest, "\n")
		if !found {
			panic(fmt.Sprintf("the term %q has no text", term))
		}
		return block{term: term, text: flow(text)}
	}
	return block{text: flow(paragraph)}
}

// flow joins the lines of a paragraph.
func flow(text string) string { return strings.Join(strings.Fields(text), " ") }
