package press

import (
	"bufio"
	"encoding/xml"
	"fmt"
	"hash/fnv"
	"image/color"
	"io"
	"math"
	"strconv"
	"strings"

	"weekband/render/canvas"
	"weekband/render/plane"
)

// SVG writes the page as a standalone SVG 2 image of its layout size. Text
// is text, set to the widths of the layout whatever font the viewer has.
// Coordinates are rounded to a tenth of a layout pixel, and shapes that share
// edges are thinned together to half of one. The same page gives the same
// bytes. It returns the errors of w, and one when the description lacks a
// title or its language is no language tag.
func (p *Page) SVG(w io.Writer, d Description) error {
	if err := d.check(); err != nil {
		return err
	}
	return throughKeeper(p.keeper, func() Key { return p.key("SVG", d) }, w, func(w io.Writer) error { return p.svg(w, d) })
}

func (p *Page) svg(w io.Writer, d Description) error {
	s := sketch{keeper: p.keeper}
	p.Draw(&s)
	out := bufio.NewWriterSize(w, 1<<16)
	s.write(out, p.Layout, d)
	return out.Flush()
}

// sketch is the Canvas that collects elements of an SVG image.
type sketch struct {
	elements []element
	shapes   []shape        // outlines, each once
	known    map[string]int // index in shapes by path data
	keeper   Keeper
}

// element is markup, or a shape with its attributes.
type element struct {
	markup string // attributes of the shape, if there is one
	shape  int    // 1 + index in shapes; 0 for none
	group  string // attributes that neighbours share, on a group around them
}

// shape is the outline of one or more elements.
type shape struct {
	data string
	uses int
}

// long is the length of path data from which a second use refers to the
// first.
const long = 80

func (s *sketch) add(markup string) { s.elements = append(s.elements, element{markup: markup}) }

// draw adds an outline.
func (s *sketch) draw(p *plane.Path, attributes string) { s.trace(p.SVG(), attributes) }

func (s *sketch) trace(data, attributes string) {
	if data == "" {
		return
	}
	if s.known == nil {
		s.known = map[string]int{}
	}
	i, ok := s.known[data]
	if !ok {
		i = len(s.shapes)
		s.known[data] = i
		s.shapes = append(s.shapes, shape{data: data})
	}
	s.shapes[i].uses++
	s.elements = append(s.elements, element{markup: attributes, shape: i + 1})
}

func (s *sketch) Fill(p *plane.Path, c color.NRGBA) { s.draw(p, paintOf("fill", c)) }

func (s *sketch) Stroke(p *plane.Path, pen canvas.Pen) { s.draw(p, `fill="none" `+penOf(pen)) }

// Dots draws points with a round pen.
func (s *sketch) Dots(at []plane.Pixel, radius float64, c color.NRGBA) {
	s.Stroke(points(at), canvas.Pen{Color: c, Width: 2 * radius})
}

// points returns lines of no length: dots of the pen.
func points(at []plane.Pixel) *plane.Path {
	var p plane.Path
	for _, q := range at {
		p.Add(q, q)
	}
	return &p
}

// penOf returns the attributes of a line.
func penOf(pen canvas.Pen) string {
	return paintOf("stroke", pen.Color) + ` stroke-width="` + decimals(pen.Width, 2) + `"`
}

// Mosaic lets each piece reach half a pixel of the screen under the next, at
// any zoom, so that nothing shines through between them.
func (s *sketch) Mosaic(pieces []canvas.Piece) {
	for i, p := range meshed(pieces) {
		c := pieces[i].Color
		s.draw(p, paintOf("fill", c)+" "+paintOf("stroke", c)+` vector-effect="non-scaling-stroke"`)
	}
}

func (s *sketch) Clip(inside canvas.Stencil, draw func(canvas.Canvas)) {
	id := "clip" + strconv.Itoa(len(s.elements))
	s.add(`<clipPath id="` + idMark + id + `">`)
	s.draw(outlineOf(inside.Path()), "")
	s.add(`</clipPath><g clip-path="url(#` + idMark + id + `)">`)
	draw(s)
	s.add("</g>")
}

// Layer draws what pages share in full: a file stands alone.
func (s *sketch) Layer(l *canvas.Layer) { l.Draw(s) }

// idMark stands for what sets the ids of one image apart from those of
// another in the same document.
const idMark = "\x00"

// write writes the document.
func (s *sketch) write(w *bufio.Writer, l Layout, d Description) {
	prefix := s.prefix() + "-"
	put := func(parts ...string) {
		for _, part := range parts {
			w.WriteString(strings.ReplaceAll(part, idMark, prefix)) // Flush tells of errors
		}
	}
	width, height := decimals(l.Width, 2), decimals(l.Height, 2)
	put(`<svg xmlns="http://www.w3.org/2000/svg" width="`, width, `" height="`, height, `" viewBox="0 0 `, width, " ", height,
		`" role="img" lang="`, escaped(d.lang()), `" xml:lang="`, escaped(d.lang()), `" aria-labelledby="`, idMark, "title ", idMark,
		`desc" stroke-linecap="round" stroke-linejoin="round">`, "\n")
	put(`<title id="`, idMark, `title">`, escaped(d.Title), "</title>\n")
	put(`<desc id="`, idMark, `desc">`, escaped(d.Desc), "</desc>\n")
	s.writeShared(put)
	group := ""
	for _, e := range s.elements {
		if group != "" && e.group != group {
			put("</g>\n")
		}
		if e.group != "" && e.group != group {
			put("<g ", e.group, ">\n")
		}
		group = e.group
		s.writeElement(put, e)
	}
	if group != "" {
		put("</g>\n")
	}
	put("</svg>\n")
}

func (s *sketch) writeElement(put func(...string), e element) {
	if e.shape == 0 {
		put(e.markup, "\n")
		return
	}
	space := ""
	if e.markup != "" {
		space = " "
	}
	if o := s.shapes[e.shape-1]; o.shared() {
		put(`<use href="#`, idMark, "s", strconv.Itoa(e.shape), `"`, space, e.markup, "/>\n")
	} else {
		put(`<path`, space, e.markup, ` d="`, o.data, "\"/>\n")
	}
}

// writeShared writes the outlines used more than once.
func (s *sketch) writeShared(put func(...string)) {
	put("<defs>\n")
	for i, o := range s.shapes {
		if o.shared() {
			put(`<path id="`, idMark, "s", strconv.Itoa(i+1), `" d="`, o.data, "\"/>\n")
		}
	}
	put("</defs>\n")
}

func (o shape) shared() bool { return o.uses > 1 && len(o.data) > long }

// prefix returns a name made from the content.
func (s *sketch) prefix() string {
	h := fnv.New32a()
	for _, e := range s.elements {
		io.WriteString(h, e.markup)
	}
	for _, o := range s.shapes {
		io.WriteString(h, o.data)
	}
	return "m" + strconv.FormatUint(uint64(h.Sum32()), 36)
}

// paintOf returns a colour as the attributes of a fill or a stroke.
func paintOf(what string, c color.NRGBA) string {
	out := fmt.Sprintf(`%s="#%02x%02x%02x"`, what, c.R, c.G, c.B)
	if c.A < 255 {
		out += " " + what + `-opacity="` + decimals(float64(c.A)/255, 3) + `"`
	}
	return out
}

// decimals formats a number with at most so many decimals.
func decimals(v float64, places int) string {
	scale := math.Pow10(places)
	return strconv.FormatFloat(math.Round(v*scale)/scale, 'f', -1, 64)
}

// escaped returns text as XML; what XML cannot hold becomes U+FFFD.
func escaped(text string) string {
	var b strings.Builder
	if err := xml.EscapeText(&b, []byte(text)); err != nil {
		panic("press: writing to memory: " + err.Error())
	}
	return b.String()
}
