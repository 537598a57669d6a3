package manual

import (
	"slices"
	"strings"

	"github.com/alecthomas/kong"
)

// Page is what the manual says of one command or topic, or of all.
type Page struct {
	Name     string // of the command or topic; "" for the overview
	Summary  string // one line
	usage    string // "" for a topic
	sections []section
}

// Topic is what the manual tells of besides commands.
type Topic struct{ Name, Summary string }

// Topics are all topics in the order in which they are listed.
var Topics = []Topic{
	{recipeTopic, "Every key of a recipe, and a whole recipe to start from."},
	{"files", "What an edition holds, and what each file is for."},
	{"progress", "What is told while a command works: notes, events, exit codes."},
}

const recipeTopic = "recipe"

// Overview returns the page that tells of all commands and topics.
func Overview(app *kong.Application) *Page {
	return &Page{
		Summary: app.Help,
		usage:   "weekband COMMAND [ARGUMENTS] [OPTIONS]",
		sections: parse("overview", func(name string) []section {
			switch name {
			case "commands":
				return aligned(commandsOf(app))
			case "options":
				return optionsOf(app.Node)
			}
			return nil
		}),
	}
}

// Command returns the page of a command.
func Command(node *kong.Node) *Page {
	return &Page{
		Name:    node.Name,
		Summary: node.Help,
		usage:   Usage(node),
		sections: parse(node.Name, func(name string) []section {
			if name == "options" {
				return aligned(slices.Concat(argumentsOf(node), optionsOf(node)))
			}
			return nil
		}),
	}
}

// Find returns the page of a command or topic, nil when there is none.
func Find(app *kong.Application, name string) *Page {
	for _, node := range visible(app) {
		if node.Name == name {
			return Command(node)
		}
	}
	for _, t := range Topics {
		switch {
		case t.Name != name:
		case name == recipeTopic:
			return recipePage(t)
		default:
			return &Page{Name: t.Name, Summary: t.Summary, sections: parse(t.Name, nil)}
		}
	}
	return nil
}

// Names returns the names of all pages but the overview: commands, then topics.
func Names(app *kong.Application) []string {
	var list []string
	for _, node := range visible(app) {
		list = append(list, node.Name)
	}
	for _, t := range Topics {
		list = append(list, t.Name)
	}
	return list
}

// Examples returns what the page shows as examples, in order: each one or more
// lines to type into a shell.
func (p *Page) Examples() []string {
	var list []string
	for _, s := range p.sections {
		for _, b := range s.blocks {
			if s.title == "Examples" && b.lines != nil {
				list = append(list, strings.Join(b.lines, "\n"))
			}
		}
	}
	return list
}

// filesTitle begins the titles of sections that list files.
const filesTitle = "Files"

func visible(app *kong.Application) []*kong.Node {
	return slices.DeleteFunc(slices.Clone(app.Children), func(n *kong.Node) bool { return n.Hidden })
}

// commandsOf lists the commands under the titles of their groups, and topics.
func commandsOf(app *kong.Application) []section {
	list := []section{{}}
	for _, node := range visible(app) {
		if title := node.Group.Title; title != list[len(list)-1].title {
			list = append(list, section{title: title})
		}
		last := &list[len(list)-1]
		last.blocks = append(last.blocks, block{term: node.Name, text: node.Help})
	}
	topics := section{title: "Topics"}
	for _, t := range Topics {
		topics.blocks = append(topics.blocks, block{term: t.Name, text: t.Summary})
	}
	return append(list, topics)
}

// Usage returns how a command line with the command looks.
func Usage(node *kong.Node) string {
	words := []string{"weekband", node.Name}
	for _, arg := range node.Positional {
		words = append(words, placeholder(arg))
	}
	return strings.Join(append(words, "[OPTIONS]"), " ")
}

// placeholder stands for an argument.
func placeholder(arg *kong.Positional) string {
	text := strings.ToUpper(arg.Name)
	if arg.IsCumulative() {
		text += "..."
	}
	if !arg.Required {
		text = "[" + text + "]"
	}
	return text
}

func argumentsOf(node *kong.Node) []section {
	if len(node.Positional) == 0 {
		return nil
	}
	s := section{title: "Arguments"}
	for _, arg := range node.Positional {
		s.blocks = append(s.blocks, block{term: strings.Trim(placeholder(arg), "[]"), text: arg.Help})
	}
	return []section{s}
}

// generalOptions is the title of options that have no group of their own.
const generalOptions = "General options"

// optionsOf lists the options of a command under the titles of their groups, in
// the order in which they first appear, those of all commands last.
func optionsOf(node *kong.Node) []section {
	var list []section
	add := func(f *kong.Flag) {
		title := generalOptions
		if f.Group != nil {
			title = f.Group.Title
		}
		at := slices.IndexFunc(list, func(s section) bool { return s.title == title })
		if at < 0 {
			at = len(list)
			list = append(list, section{title: title})
		}
		list[at].blocks = append(list[at].blocks, optionOf(f))
	}
	levels := node.AllFlags(true)
	slices.Reverse(levels)
	for _, flags := range levels {
		for _, f := range flags {
			add(f)
		}
	}
	at := slices.IndexFunc(list, func(s section) bool { return s.title == generalOptions })
	return append(slices.Delete(slices.Clone(list), at, at+1), list[at])
}

func optionOf(f *kong.Flag) block {
	b := block{term: "--" + f.Name, text: f.Help}
	if f.Short != 0 {
		b.term = "-" + string(f.Short) + ", " + b.term
	}
	if !f.IsBool() {
		b.term += " " + f.PlaceHolder
	}
	if f.HasDefault {
		b.text += " Default: " + f.Default + "."
	}
	return b
}
