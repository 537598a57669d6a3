package plane

import "strconv"

// PDF returns the path as operators of a PDF content stream, places
// rounded to tenths of a pixel; empty when nothing is left of it.
func (p *Path) PDF() string {
	var out []byte
	for _, l := range p.Lines {
		places := rounded(l)
		if l.Closed && len(places) < 3 {
			continue
		}
		if len(places) == 1 {
			places = append(places, places[0]) // a dot of the pen
		}
		for i, t := range places {
			out = appendTenths(out, t.x)
			out = append(out, ' ')
			out = appendTenths(out, t.y)
			if i == 0 {
				out = append(out, " m\n"...)
			} else {
				out = append(out, " l\n"...)
			}
		}
		if l.Closed {
			out = append(out, "h\n"...)
		}
	}
	return string(out)
}

// appendTenths appends a number of tenths, without a zero before the point.
func appendTenths(text []byte, v int) []byte {
	if v < 0 {
		text = append(text, '-')
		v = -v
	}
	if v >= 10 || v == 0 {
		text = strconv.AppendInt(text, int64(v/10), 10)
	}
	if v%10 != 0 {
		text = append(text, '.', byte('0'+v%10))
	}
	return text
}
