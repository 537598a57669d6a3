package progress

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"time"
	"unicode"

	"golang.org/x/text/width"
)

// Codes of terminals, ECMA-48: erase in display, from the cursor to the end.
const eraseBelow = "\r\x1b[J"

// draw writes the live line in the place of the one before; p.mu is held. The
// cursor stays at its beginning, so that a terminal which wraps the line anew
// when it becomes narrower keeps the cursor above all of it.
func (p *Teller) draw(line string) {
	io.WriteString(p.to, eraseBelow+line+"\r")
	p.drawn = true
}

// erase takes the live line away; p.mu is held.
func (p *Teller) erase() {
	if p.drawn {
		io.WriteString(p.to, eraseBelow)
		p.drawn = false
	}
}

// Above returns a writer to a terminal on which a live line may stand: what is
// written stands above that line. Where none can stand it is w itself.
func (p *Teller) Above(w io.Writer) io.Writer {
	if p.look != live {
		return w
	}
	return aboveLine{p, w}
}

type aboveLine struct {
	p *Teller
	w io.Writer
}

// Write implements io.Writer.
func (a aboveLine) Write(b []byte) (int, error) {
	a.p.mu.Lock()
	defer a.p.mu.Unlock()
	a.p.erase()
	return a.w.Write(b)
}

// Widths of the parts of a live line in columns.
const (
	leastText = 12
	leastBar  = 10
	mostBar   = 30
	between   = 2
)

// barLine is the live line of a stage, at most so many columns wide: what it
// is, a bar, percent, the count, the rate and the time left; of these as many
// as there is room for, percent and time left first.
func barLine(columns int, r extent) string {
	text := visible(strings.Join(strings.Fields(r.text), " "))
	if r.total == 0 {
		return joined(columns, text, spent(r.elapsed))
	}
	share := float64(r.did) / float64(r.total)
	parts := []string{ // as they stand
		fmt.Sprintf("%d %%", int(100*share)),
		fmt.Sprintf("%s of %s %s", grouped(r.did), grouped(r.total), r.unit),
		"",
		"",
	}
	if r.elapsed >= settles {
		parts[2] = paced(r.rate) + "/s"
	}
	if r.left >= 0 {
		parts[3] = spent(r.left) + " left"
	}
	room := columns - min(columnsOf(text), max(leastText, columns/3))
	kept := make([]string, len(parts))
	for _, i := range []int{0, 3, 1, 2} {
		if need := between + columnsOf(parts[i]); parts[i] != "" && need <= room {
			kept[i], room = parts[i], room-need
		}
	}
	room = columns - columnsOf(text) - between
	for _, part := range kept {
		if part != "" {
			room -= between + columnsOf(part)
		}
	}
	if n := min(room-2, mostBar); n >= leastBar {
		full := int(math.Floor(share * float64(n)))
		kept = append([]string{"[" + strings.Repeat("#", full) + strings.Repeat(".", n-full) + "]"}, kept...)
	}
	return joined(columns, text, kept...)
}

// joined sets parts that are not empty behind a text, which is cut to what
// room they leave.
func joined(columns int, text string, parts ...string) string {
	tail := ""
	for _, part := range parts {
		if part != "" {
			tail += strings.Repeat(" ", between) + part
		}
	}
	if room := columns - columnsOf(tail); room > 0 {
		return cut(text, room) + tail
	}
	return cut(text, columns)
}

// cut shortens a text to so many columns, an ellipsis in place of its end.
func cut(text string, columns int) string {
	if columnsOf(text) <= columns {
		return text
	}
	var b strings.Builder
	left := columns - 1
	for _, r := range text {
		if left -= columnsOfRune(r); left < 0 {
			break
		}
		b.WriteRune(r)
	}
	if columns < 1 {
		return ""
	}
	return b.String() + "…"
}

func columnsOf(text string) (n int) {
	for _, r := range text {
		n += columnsOfRune(r)
	}
	return n
}

// columnsOfRune is how wide terminals draw a character: two columns for what
// Unicode's annex 11 calls wide, none for marks on the one before.
func columnsOfRune(r rune) int {
	switch {
	case unicode.In(r, unicode.Mn, unicode.Me):
		return 0
	case width.LookupRune(r).Kind() == width.EastAsianWide, width.LookupRune(r).Kind() == width.EastAsianFullwidth:
		return 2
	}
	return 1
}

// visible writes out characters that would steer a terminal or turn around
// the order of what follows; names of files and regions may hold any. New
// lines and tabs stay.
func visible(text string) string {
	steers := func(r rune) bool {
		return unicode.IsControl(r) && r != '\n' && r != '\t' || unicode.Is(unicode.Bidi_Control, r) || r == unicode.ReplacementChar
	}
	if strings.IndexFunc(text, steers) < 0 {
		return text
	}
	var b strings.Builder
	for _, r := range text {
		if steers(r) {
			quoted := strconv.QuoteToASCII(string(r))
			b.WriteString(quoted[1 : len(quoted)-1])
		} else {
			b.WriteRune(r)
		}
	}
	return b.String()
}

// grouped writes a count, a comma before every three digits.
func grouped(n int64) string {
	text := strconv.FormatInt(n, 10)
	for at := len(text) - 3; at > 0; at -= 3 {
		text = text[:at] + "," + text[at:]
	}
	return text
}

// paced writes a rate with as many digits as it is worth.
func paced(rate float64) string {
	if rate < 9.95 {
		return strconv.FormatFloat(rate, 'f', 1, 64)
	}
	return grouped(int64(math.Round(rate)))
}

// spent writes a time as people say it.
func spent(d time.Duration) string {
	s := int64(math.Ceil(d.Seconds()))
	switch {
	case s < 60:
		return fmt.Sprintf("%d s", s)
	case s < 3600:
		return fmt.Sprintf("%d min %d s", s/60, s%60)
	}
	return fmt.Sprintf("%s h %d min", grouped(s/3600), s/60%60)
}
