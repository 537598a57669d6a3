package canvas

import (
	"strings"
	"unicode/utf8"

	"weekband/render/plane"
)

// Wrap breaks text into lines no wider than width pixels, at spaces and after
// dashes. A word wider than the line is broken between letters. Line breaks
// in the text stay.
func Wrap(text string, f Font, width float64) []string {
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

// FitLines wraps text at the largest size that fits a room, in pixels from most
// to least; at least it takes as many lines as there is room for and ends in an
// ellipsis.
func FitLines(text string, face Typeface, most, least float64, room plane.Rect) (Font, []string) {
	for size := most; ; size = max(least, size*0.95) {
		font := Font{Face: face, Size: size}
		lines := Wrap(text, font, room.Width())
		if float64(len(lines))*font.Line() <= room.Height() && longestWord(text, font) <= room.Width() {
			return font, lines
		}
		if size > least {
			continue
		}
		n := max(1, int(room.Height()/font.Line()))
		if len(lines) > n {
			lines = append(lines[:n-1:n-1], Shorten(strings.Join(lines[n-1:], " "), font, room.Width()))
		}
		return font, lines
	}
}

// longestWord returns the width of the longest part of a text that wrapping
// keeps on a line.
func longestWord(text string, f Font) float64 {
	most := 0.0
	for _, piece := range pieces(strings.ReplaceAll(text, "\n", " ")) {
		most = max(most, f.Width(strings.TrimRight(piece, " ")))
	}
	return most
}

// Shorten returns a text cut to a width in pixels, with dots where something is
// missing; itself where it fits.
func Shorten(text string, font Font, width float64) string {
	if font.Width(text) <= width {
		return text
	}
	return fitting(text, font, width-font.Width("…")) + "…"
}
