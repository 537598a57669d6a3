package plane

// SVG returns the path as SVG path data: places rounded to tenths of a
// pixel, steps between them relative, repeats left out. Rounding places, not
// steps, keeps shared edges shared. Lines that shrink to one place are left
// out when closed and become dots of the pen when open.
func (p *Path) SVG() string {
	var out pathWriter
	for _, l := range p.Lines {
		out.line(l)
	}
	return string(out.text)
}

// pathWriter builds path data.
type pathWriter struct {
	text []byte
	at   tenths // where the pen is
	from tenths // where the line began
}

func (w *pathWriter) line(l Line) {
	places := rounded(l)
	if l.Closed && len(places) < 3 {
		return
	}
	w.move(places[0])
	for _, t := range places[1:] {
		w.step(t)
	}
	if len(places) == 1 {
		w.text = append(w.text, "h0"...)
	}
	if l.Closed {
		w.text = append(w.text, 'z')
		w.at = w.from
	}
}

// move begins a line.
func (w *pathWriter) move(to tenths) {
	w.text = append(w.text, 'm') // the first is absolute all the same
	w.number(to.x-w.at.x, false)
	w.number(to.y-w.at.y, true)
	w.at, w.from = to, to
}

// step goes on to a place: after a move, and after another step, pairs of
// numbers need no letter.
func (w *pathWriter) step(to tenths) {
	dx, dy := to.x-w.at.x, to.y-w.at.y
	w.number(dx, true)
	w.number(dy, true)
	w.at = to
}

// number appends a number of tenths, apart from a number before it.
func (w *pathWriter) number(v int, apart bool) {
	if apart && v >= 0 {
		w.text = append(w.text, ' ')
	}
	w.text = appendTenths(w.text, v)
}
