package render

import (
	"strings"
	"unicode/utf8"
)

// wrap breaks text into lines no wider than width pixels, at spaces and after
// dashes. A word wider than the line is broken between letters. Line breaks
// in the text stay.
func wrap(text string, f Font, width float64) []string {
	var lines []string
	for paragraph := range strings.SplitSeq(text, "\n") {
		line := ""
		for _, word := range pieces(paragraph) {
			if line != "" && f.Width(strings.TrimRight(line+word, " ")) > width {
				lines = append(lines, strings.TrimRight(line, " "))
				line = ""
			}
			line += word
			for f.Width(strings.TrimRight(line, " ")) > width && utf8.RuneCountInString(line) > 1 {
				head := fitting(line, f, width)
				lines = append(lines, head)
				line = line[len(head):]
			}
		}
		if line = strings.TrimRight(line, " "); line != "" {
			lines = append(lines, line)
		}
	}
	return lines
}

// pieces splits text after each space and each dash between dates.
func pieces(text string) []string {
	var out []string
	start := 0
	for i, r := range text {
		if r == ' ' || r == '–' {
			end := i + utf8.RuneLen(r)
			out = append(out, text[start:end])
			start = end
		}
	}
	if start < len(text) {
		out = append(out, text[start:])
	}
	return out
}

// fitting returns as many letters of a word as fit, at least one.
func fitting(word string, f Font, width float64) string {
	end := 0
	for i, r := range word {
		next := i + utf8.RuneLen(r)
		if end > 0 && f.Width(word[:next]) > width {
			break
		}
		end = next
	}
	return word[:end]
}
