package main

import (
	"io"
	"os"
	"strings"

	"github.com/alecthomas/kong"

	"weekband/cmd/weekband/internal/completion"
	"weekband/cmd/weekband/internal/manual"
	"weekband/cmd/weekband/internal/output"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/cmd/weekband/internal/usage"
	"weekband/regions/places"
	"weekband/render/lookup"
)

type completionCmd struct {
	Shell string `arg:"" help:"Shell that the script is for: bash, zsh or fish." complete:"words bash zsh fish"`
}

// Run prints the script of a shell.
func (c completionCmd) Run(s *streams) error {
	script := completion.Script(c.Shell)
	if script == "" {
		return usage.Errorf("%s", manual.Unknown("script for the shell", c.Shell, completion.Shells, "want "+strings.Join(completion.Shells, ", ")))
	}
	_, err := io.WriteString(s.out, script)
	return err
}

type completeCmd struct {
	Shell string   `arg:"" help:"Shell that asks."`
	Words []string `arg:"" optional:"" help:"Words after the program's name up to the one that is typed, or in bash the whole line."`
}

// Run answers a script of package completion. What cannot be read has no words:
// nobody wants to read errors while typing.
func (c completeCmd) Run(line *kong.Context, s *streams) error {
	words := c.Words
	switch {
	case c.Shell == "bash" && len(words) > 0:
		words = completion.Split(words[0])[1:]
	case c.Shell == "fish" && len(words) > 0:
		last := completion.Split(words[len(words)-1])
		words[len(words)-1] = last[len(last)-1]
	}
	return completion.Complete(line.Model, words, offered).Write(s.out, c.Shell)
}

// offered gives words of kinds that package completion asks for.
func offered(kind string, line completion.Line, typed string) []completion.Word {
	switch kind {
	case "topics":
		return topicWords(line)
	case "places":
		return placeWords(line.Args[0], typed)
	case "windows":
		return windowWords(line.Args)
	}
	return nil
}

// topicWords are commands and topics, or keys of recipes.
func topicWords(line completion.Line) (words []completion.Word) {
	switch {
	case len(line.Args) == 0:
		for _, node := range line.Node.Parent.Children {
			if !node.Hidden {
				words = append(words, completion.Word{Text: node.Name, About: node.Help})
			}
		}
		for _, t := range manual.Topics {
			words = append(words, completion.Word{Text: t.Name, About: t.Summary})
		}
	case line.Args[0] == "recipe":
		for _, k := range recipe.Keys() {
			words = append(words, completion.Word{Text: strings.ReplaceAll(k.Path, "[]", ""), About: k.Meaning})
		}
	}
	return words
}

// placeWords are the places and regions of an edition whose names begin with
// what is typed, in any spelling that lookup takes, and codes that do.
func placeWords(edition, typed string) (words []completion.Word) {
	opened, err := lookup.Open(os.DirFS(edition))
	if err != nil {
		return nil
	}
	known, err := opened.PlaceList()
	if err != nil {
		return nil
	}
	areas, err := output.PublishedRegions(edition)
	if err != nil {
		return nil
	}
	begun := places.Fold(typed)
	for _, r := range areas.Regions {
		known = append(known, places.Place{Name: r.Name, Code: r.ID})
	}
	for _, p := range known {
		if strings.HasPrefix(places.Fold(p.Name), begun) {
			words = append(words, completion.Word{Text: p.Name, About: p.Region})
		} else if begun != "" && strings.HasPrefix(places.Fold(p.Code), begun) {
			words = append(words, completion.Word{Text: p.Code, About: p.Name})
		}
	}
	return words
}

// windowWords are the windows of the editions among some arguments.
func windowWords(args []string) (words []completion.Word) {
	seen := map[string]bool{}
	for _, dir := range args {
		opened, err := lookup.Open(os.DirFS(dir))
		if err != nil {
			continue
		}
		for _, w := range opened.Windows {
			if !seen[w.ID] {
				seen[w.ID] = true
				words = append(words, completion.Word{Text: w.ID, About: w.Title})
			}
		}
	}
	return words
}
