package progress

import (
	"io"
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

// aboveLine writes to a terminal above the live line of a Teller.
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
