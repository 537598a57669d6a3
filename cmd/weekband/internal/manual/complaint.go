package manual

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"github.com/alecthomas/kong"

	"weekband/cmd/weekband/internal/nearest"
)

// What the parser says of a command line, without the words that it finds near.
var (
	unknownWord   = regexp.MustCompile(`^unexpected argument (.+)$`)
	unknownOption = regexp.MustCompile(`^unknown flag (-\S+)$`)
	noArgument    = regexp.MustCompile(`^expected (?:one of )?"(?:<|\[<)?([a-z]+)`)
	noValue       = regexp.MustCompile(`^--([a-z-]+): (?:expected .* value but got "EOL"|missing value)`)
	wrongNumber   = regexp.MustCompile(`^--([a-z-]+): expected a valid .* int but got (".*")`)
	together      = regexp.MustCompile(`^--(\S+) and --(\S+) can't be used together$`)
	itsOwnGuess   = regexp.MustCompile(`, did you mean .*\?$`)
)

// Complaint says what is wrong with a command line that err, the parser's, came
// of, with the nearest valid word where one was mistyped, and what help to read.
func Complaint(app *kong.Application, err error) (text, advice string) {
	var node *kong.Node
	if parse, ok := errors.AsType[*kong.ParseError](err); ok {
		node = parse.Context.Selected()
	}
	advice = "Try weekband --help.\n"
	if node != nil && !node.Hidden {
		advice = fmt.Sprintf("Usage: %s\nTry weekband %s --help.\n", Usage(node), node.Name)
	}
	said := itsOwnGuess.ReplaceAllString(err.Error(), "")
	if m := unknownOption.FindStringSubmatch(said); m != nil {
		return noOption(app, node, m[1]), advice
	}
	if m := together.FindStringSubmatch(said); m != nil {
		return fmt.Sprintf("--%s and --%s do not go together", m[1], m[2]), advice
	}
	if node == nil {
		return noCommand(app, said), advice
	}
	if m := unknownWord.FindStringSubmatch(said); m != nil {
		return fmt.Sprintf("%q is more than %s takes", m[1], node.Name), advice
	}
	if m := noArgument.FindStringSubmatch(said); m != nil {
		if arg := argument(node, m[1]); arg != nil {
			return fmt.Sprintf("%s lacks %s: %s", node.Name, strings.ToUpper(arg.Name), lowered(arg.Help)), advice
		}
	}
	if m := noValue.FindStringSubmatch(said); m != nil {
		return fmt.Sprintf("--%s lacks its value, %s", m[1], option(node, m[1]).PlaceHolder), advice
	}
	if m := wrongNumber.FindStringSubmatch(said); m != nil {
		return fmt.Sprintf("--%s %s: want a whole number", m[1], m[2]), advice
	}
	return said, advice
}

// noCommand says what is wrong with a command line that names no command.
func noCommand(app *kong.Application, said string) string {
	m := unknownWord.FindStringSubmatch(said)
	if m == nil {
		return "no command; weekband help lists them"
	}
	var names []string
	for _, node := range visible(app) {
		names = append(names, node.Name)
	}
	if slices.ContainsFunc(Topics, func(t Topic) bool { return t.Name == m[1] }) {
		return fmt.Sprintf("there is no command %q; weekband help %s tells of it", m[1], m[1])
	}
	return Unknown("command", m[1], names, "weekband help lists them")
}

// Unknown says that a word is none of its kind, with the nearest that is, or
// else where to find them.
func Unknown(kind, word string, valid []string, where string) string {
	if near, ok := nearest.Word(word, valid); ok {
		return fmt.Sprintf("there is no %s %q; did you mean %q?", kind, word, near)
	}
	return fmt.Sprintf("there is no %s %q; %s", kind, word, where)
}

func noOption(app *kong.Application, node *kong.Node, typed string) string {
	of := "weekband"
	if node == nil {
		node = app.Node
	} else {
		of = node.Name
	}
	text := fmt.Sprintf("%s has no option %s", of, typed)
	if len(typed) > 1 && typed[1] >= '0' && typed[1] <= '9' {
		return text + "; -- goes before an argument that begins with -"
	}
	var names []string
	for _, flags := range node.AllFlags(true) {
		for _, f := range flags {
			names = append(names, f.Name)
		}
	}
	slices.Sort(names)
	if near, ok := nearest.Word(strings.TrimLeft(typed, "-"), names); ok {
		return text + "; did you mean --" + near + "?"
	}
	return text
}

func argument(node *kong.Node, name string) *kong.Positional {
	for _, arg := range node.Positional {
		if arg.Name == name {
			return arg
		}
	}
	return nil
}

// option returns an option of a command by its name.
func option(node *kong.Node, name string) *kong.Flag {
	for _, flags := range node.AllFlags(false) {
		for _, f := range flags {
			if f.Name == name {
				return f
			}
		}
	}
	panic("the command has no option " + name) // it came from the parser
}

// lowered is the beginning of a sentence as what follows a colon.
func lowered(text string) string {
	text = strings.TrimSuffix(text, ".")
	if len(text) > 1 && (text[1] == ' ' || text[1] >= 'a' && text[1] <= 'z') {
		return strings.ToLower(text[:1]) + text[1:]
	}
	return text
}
