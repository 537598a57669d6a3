package manual

import (
	"regexp"
	"strings"
	"unicode/utf8"
)

// Layout of a page on a terminal, in columns.
const (
	margin   = 2  // of all but titles
	hanging  = 4  // of the text of an item below its term, from the margin
	mostTerm = 18 // a longer term has a line of its own
	gap      = 2  // between a term and its text
)

// Plain returns the page as lines of at most width columns, as far as words and
// examples allow.
func (p *Page) Plain(width int) string {
	var b strings.Builder
	if p.usage != "" {
		writeIndented(&b, wrapped(p.usage, width-hanging), 0, hanging)
		b.WriteString("\n")
	}
	writeIndented(&b, wrapped(p.Summary, width-margin), margin, margin)
	for _, s := range p.sections {
		if s.title != "" {
			b.WriteString("\n" + s.title + "\n")
		}
		s.plain(&b, width)
	}
	return b.String()
}

// plain writes the blocks of a section. The first follows its title, or a blank
// line where it has none.
func (s *section) plain(b *strings.Builder, width int) {
	column := s.column
	if column == 0 && !s.stacked() {
		column = termColumn(s.blocks)
	}
	for i, one := range s.blocks {
		beside := one.term != "" && column > 0
		if i == 0 && s.title == "" || i > 0 && !(beside && s.blocks[i-1].term != "") {
			b.WriteString("\n")
		}
		switch {
		case one.lines != nil:
			writeIndented(b, one.lines, margin+hanging, margin+hanging)
		case one.term == "":
			writeIndented(b, wrapped(one.text, width-margin), margin, margin)
		case beside:
			writeItem(b, one, column, width)
		default:
			writeIndented(b, wrapped(bare(one.term), width-margin-hanging), margin, margin+hanging)
			writeIndented(b, wrapped(one.text, width-margin-hanging), margin+hanging, margin+hanging)
		}
	}
}

// stacked reports whether the section lists names of files or keys, whose texts
// stand below them whatever their length.
func (s *section) stacked() bool {
	return strings.HasPrefix(s.title, filesTitle) || s.keys
}

// termColumn is how many columns terms have beside their texts; 0 when most of
// them are too long for that.
func termColumn(blocks []block) int {
	longest, short, all := 0, 0, 0
	for _, b := range blocks {
		if b.term == "" {
			continue
		}
		all++
		if n := utf8.RuneCountInString(bare(b.term)); n <= mostTerm {
			short++
			longest = max(longest, n)
		}
	}
	if 2*short <= all {
		return 0
	}
	return longest
}

// aligned lets the texts of all sections begin in one column.
func aligned(list []section) []section {
	var all []block
	for _, s := range list {
		all = append(all, s.blocks...)
	}
	for i := range list {
		list[i].column = termColumn(all)
	}
	return list
}

// writeItem writes a term and its text beside it, or below when the term is too
// long.
func writeItem(b *strings.Builder, one block, column, width int) {
	term := bare(one.term)
	left := margin + column + gap
	lines := wrapped(one.text, width-left)
	if n := utf8.RuneCountInString(term); n <= column {
		lines[0] = term + strings.Repeat(" ", column+gap-n) + lines[0]
		writeIndented(b, lines, margin, left)
		return
	}
	writeIndented(b, []string{term}, margin, margin)
	writeIndented(b, lines, left, left)
}

// bare is a term without the marks of literal words, as which all of it counts.
func bare(term string) string { return strings.ReplaceAll(term, "`", "") }

// unbroken puts a no-break space where a line must not end: within literal
// words, and between a number and its sign.
func unbroken(text string) string {
	text = quoted.ReplaceAllStringFunc(text, func(word string) string { return strings.ReplaceAll(word, " ", noBreak) })
	return beforeSign.ReplaceAllString(text, "$1"+noBreak+"$2")
}

const noBreak = "\u00a0"

var beforeSign = regexp.MustCompile(`(\d) ([%°])`)

// writeIndented writes lines behind spaces, the first and the others.
func writeIndented(b *strings.Builder, lines []string, first, others int) {
	for i, line := range lines {
		indent := others
		if i == 0 {
			indent = first
		}
		line = strings.ReplaceAll(line, noBreak, " ")
		b.WriteString(strings.TrimRight(strings.Repeat(" ", indent)+line, " ") + "\n")
	}
}

// wrapped breaks a text between words into lines of at most width columns; a
// line feed stands.
func wrapped(text string, width int) []string {
	var lines []string
	for paragraph := range strings.SplitSeq(unbroken(text), "\n") {
		line := ""
		for word := range strings.SplitSeq(paragraph, " ") {
			switch {
			case line == "":
				line = word
			case utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) <= width:
				line += " " + word
			default:
				lines = append(lines, line)
				line = word
			}
		}
		lines = append(lines, line)
	}
	return lines
}
