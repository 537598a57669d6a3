package completion

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/alecthomas/kong"
)

// Word may stand in place of the last word of a command line.
type Word struct {
	Text  string
	About string // one line, may be empty
}

// Answer is all that may stand there.
type Answer struct {
	Kind  string // "words"; "folders" besides the words; "files", perhaps with endings: "files .yaml .yml"
	Typed string // of the word, without the option in --option=word
	Words []Word

	option string // "--option=" when Typed follows it
}

// Line is a command line up to the word that is asked for.
type Line struct {
	Node *kong.Node // the command, nil before it is typed
	Args []string   // its arguments before that word
}

// Asker gives the words of a kind that may follow in a line, whether or not they
// begin with what is typed.
type Asker func(kind string, line Line, typed string) []Word

// Complete answers for the last of the words that follow the program's name,
// which may be empty.
func Complete(app *kong.Application, words []string, ask Asker) Answer {
	if len(words) == 0 {
		words = []string{""}
	}
	c := caller{app: app, ask: ask}
	for _, word := range words[:len(words)-1] {
		if !c.pass(word) {
			return Answer{Kind: "words"}
		}
	}
	return c.answer(words[len(words)-1])
}

// caller follows a command line word by word.
type caller struct {
	app   *kong.Application
	ask   Asker
	line  Line
	flag  *kong.Flag   // whose value comes next, nil for none
	given []*kong.Flag // options so far
	ended bool         // by --, which no option follows
}

// pass takes a word that is complete; it returns false when nothing is known of
// what may follow.
func (c *caller) pass(word string) bool {
	name, _, whole := strings.Cut(word, "=")
	switch {
	case c.flag != nil:
		c.flag = nil
	case word == "--" && !c.ended:
		c.ended = true
	case strings.HasPrefix(word, "-") && !c.ended:
		f := c.find(name)
		if f == nil {
			return false
		}
		c.given = append(c.given, f)
		if !f.IsBool() && !whole {
			c.flag = f
		}
	case c.line.Node == nil:
		i := slices.IndexFunc(c.app.Children, func(n *kong.Node) bool { return n.Name == word && !n.Hidden })
		if i < 0 {
			return false
		}
		c.line.Node = c.app.Children[i]
	default:
		c.line.Args = append(c.line.Args, word)
	}
	return true
}

// flags are the options that may stand in the line.
func (c *caller) flags() []*kong.Flag {
	node := c.line.Node
	if node == nil {
		node = c.app.Node
	}
	levels := node.AllFlags(true)
	slices.Reverse(levels) // its own first
	return slices.Concat(levels...)
}

func (c *caller) find(name string) *kong.Flag {
	for _, f := range c.flags() {
		if name == "--"+f.Name || f.Short != 0 && name == "-"+string(f.Short) {
			return f
		}
	}
	return nil
}

// answer answers for the word that is being typed.
func (c *caller) answer(typed string) Answer {
	option, value, whole := strings.Cut(typed, "=")
	switch {
	case c.flag != nil:
		return c.value(c.flag.Value, typed)
	case strings.HasPrefix(typed, "-") && !c.ended && whole:
		f := c.find(option)
		if f == nil || f.IsBool() {
			return Answer{Kind: "words"}
		}
		a := c.value(f.Value, value)
		a.option = option + "="
		return a
	case strings.HasPrefix(typed, "-") && !c.ended:
		return c.options(typed)
	case c.line.Node == nil:
		a := Answer{Kind: "words", Typed: typed}
		for _, node := range c.app.Children {
			if !node.Hidden {
				a.add(Word{node.Name, node.Help})
			}
		}
		return a
	}
	args := c.line.Node.Positional
	i := min(len(c.line.Args), len(args)-1)
	if i < 0 || len(c.line.Args) >= len(args) && !args[i].IsCumulative() {
		return c.options(typed)
	}
	return c.value(args[i], typed)
}

// options offers those that are not in the line yet, or may stand there again.
func (c *caller) options(typed string) Answer {
	a := Answer{Kind: "words", Typed: typed}
	if c.ended {
		return a
	}
	for _, f := range c.flags() {
		if !slices.Contains(c.given, f) || f.IsSlice() {
			a.add(Word{"--" + f.Name, f.Help})
		}
	}
	return a
}

// value offers values of an argument or option, the last of several parted by
// commas.
func (c *caller) value(v *kong.Value, typed string) Answer {
	a := Answer{Kind: "words", Typed: typed}
	kind, rest, _ := strings.Cut(v.Tag.Get("complete"), " ")
	switch kind {
	case "nothing":
	case "files":
		a.Kind = v.Tag.Get("complete")
	case "folders", "words":
		a.Kind = kind
		for word := range strings.FieldsSeq(rest) {
			a.add(Word{Text: word})
		}
	default:
		before := ""
		if v.Flag != nil && v.IsSlice() && v.Tag.Sep == ',' {
			before = typed[:strings.LastIndex(typed, ",")+1]
		}
		for _, w := range c.ask(kind, c.line, typed) {
			if before != "" && slices.Contains(strings.Split(before, ","), w.Text) {
				continue
			}
			a.add(Word{before + w.Text, w.About})
		}
	}
	return a
}

// add adds a word if it begins with what is typed, whatever the case.
func (a *Answer) add(w Word) {
	if len(w.Text) >= len(a.Typed) && strings.EqualFold(w.Text[:len(a.Typed)], a.Typed) {
		a.Words = append(a.Words, w)
	}
}

// Write writes an answer as the script of a shell reads it: the kind, what is
// typed, and then a line for every word, with what it is about behind a tab.
func (a Answer) Write(w io.Writer, shell string) error {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n%s\n", a.Kind, oneLine(a.Typed))
	for _, word := range a.Words {
		if shell == "fish" {
			b.WriteString(a.option) // it completes whole words
		}
		fmt.Fprintf(&b, "%s\t%s\n", oneLine(word.Text), oneLine(brief(word.About)))
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// brief is the beginning of what a word is about, up to the end of a clause and
// at most so many letters that it stands beside the word.
func brief(about string) string {
	const most = 60
	if end := strings.IndexAny(about, ".;:("); end > 0 && end+1 < len(about) && strings.ContainsRune(" (", rune(about[end+1])) {
		about = about[:end]
	}
	about = strings.TrimSuffix(about, ".")
	letters := []rune(about)
	if len(letters) <= most {
		return about
	}
	cut := string(letters[:most])
	return cut[:max(strings.LastIndex(cut, " "), 1)] + " …"
}

// oneLine is a text without what would part it from itself.
func oneLine(text string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' {
			return ' '
		}
		return r
	}, text)
}
