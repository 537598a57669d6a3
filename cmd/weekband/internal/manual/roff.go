package manual

import (
	"fmt"
	"regexp"
	"strings"
)

// ManName is the name of the page as a man page, with its section: commands are
// in 1, file formats in 5.
func (p *Page) ManName() (name string, section int) {
	name, section = "weekband", 1
	if p.Name != "" {
		name += "-" + p.Name
	}
	if p.Name == recipeTopic {
		section = 5
	}
	return name, section
}

// Man returns the page in the man macros of roff; version stands at its foot.
// It has no date: a page is the same whenever it is written.
func (p *Page) Man(version string) string {
	var b strings.Builder
	name, number := p.ManName()
	fmt.Fprintf(&b, ".TH %s %d \"\" \"weekband %s\" \"weekband\"\n", strings.ToUpper(name), number, version)
	summary := strings.TrimSuffix(p.Summary, ".")
	fmt.Fprintf(&b, ".SH NAME\n%s \\- %s\n", name, running(strings.ToLower(summary[:1])+summary[1:]))
	if p.usage != "" {
		fmt.Fprintf(&b, ".SH SYNOPSIS\n%s\n", roffed(p.usage))
	}
	for _, s := range p.sections {
		title := s.title
		if title == "" {
			title = "Description"
		}
		if len(s.blocks) == 0 {
			continue
		}
		fmt.Fprintf(&b, ".SH %s\n", roffed(strings.ToUpper(title)))
		for i, one := range s.blocks {
			one.roff(&b, i == 0)
		}
	}
	return b.String()
}

// roff writes a block; the first of a section needs no space before it.
func (one block) roff(b *strings.Builder, first bool) {
	switch {
	case one.term != "":
		fmt.Fprintf(b, ".TP\n\\fB%s\\fR\n%s\n", roffed(bare(one.term)), running(one.text))
	case one.lines != nil:
		if !first {
			b.WriteString(".PP\n")
		}
		b.WriteString(".RS 4\n.nf\n")
		for _, line := range one.lines {
			b.WriteString(strings.ReplaceAll(roffed(line), "`", "\\(ga") + "\n")
		}
		b.WriteString(".fi\n.RE\n")
	default:
		if !first {
			b.WriteString(".PP\n")
		}
		b.WriteString(running(one.text) + "\n")
	}
}

// running writes a text in short lines; a line feed in it stands.
func running(text string) string {
	var parts []string
	for part := range strings.SplitSeq(text, "\n") {
		lines := strings.Join(wrapped(part, 60), "\n") // escapes make them longer
		parts = append(parts, roffed(strings.ReplaceAll(lines, noBreak, " ")))
	}
	return strings.Join(parts, "\n.br\n")
}

// quoted is a literal word between backticks.
var quoted = regexp.MustCompile("`([^`]*)`")

// roffed writes text so that roff prints it as it is: hyphens that can be
// copied, no line that begins like a request, letters beyond ASCII by their
// number. Literal words become bold.
func roffed(text string) string {
	var b strings.Builder
	for _, r := range text {
		switch {
		case r == '\\':
			b.WriteString(`\e`)
		case r == '-':
			b.WriteString(`\-`)
		case r == '\'':
			b.WriteString(`\(aq`)
		case r == '~':
			b.WriteString(`\(ti`)
		case r == '^':
			b.WriteString(`\(ha`)
		case r > '~':
			fmt.Fprintf(&b, `\[u%04X]`, r)
		default:
			b.WriteRune(r)
		}
	}
	lines := strings.Split(quoted.ReplaceAllString(b.String(), `\fB$1\fR`), "\n")
	for i, line := range lines {
		if strings.HasPrefix(line, ".") {
			lines[i] = `\&` + line
		}
	}
	return strings.Join(lines, "\n")
}
