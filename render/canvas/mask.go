package canvas

import (
	"image"
	"math"
	"sync"

	"weekband/render/plane"
)

// mask returns how much of each pixel a path covers, within the pixels it
// touches.
func (b *Bitmap) mask(p *plane.Path) *image.Alpha { return b.maskOf(p, b.Pixels(p.Bounds())) }

// maskOf is mask within some pixels.
func (b *Bitmap) maskOf(p *plane.Path, part image.Rectangle) *image.Alpha {
	mask := image.NewAlpha(part)
	if part.Empty() {
		return mask
	}
	c := newCoverage(part.Dx(), part.Dy())
	at := func(q plane.Pixel) (x, y float64) {
		x, y = b.at(q)
		return x - float64(part.Min.X), y - float64(part.Min.Y)
	}
	for _, l := range p.Lines {
		x0, y0 := at(l.Points[len(l.Points)-1])
		for _, q := range l.Points {
			x, y := at(q)
			c.line(x0, y0, x, y)
			x0, y0 = x, y
		}
	}
	c.write(mask.Pix)
	return mask
}

// masks are what a path covers in a room, by image pixels per layout pixel, on a
// canvas that holds it all.
type masks struct {
	room  plane.Rect
	mu    sync.Mutex
	known map[float64]*image.Alpha
}

// clip returns how much of each pixel shows through a stencil, worked out once
// where that keeps it.
func (b *Bitmap) clip(s Stencil) *image.Alpha {
	p := s.Path()
	if s.masks == nil || p.Empty() {
		return b.mask(p)
	}
	whole := s.masks.at(p, b.scale)
	part := *whole
	part.Rect = part.Rect.Sub(b.origin)
	return part.SubImage(b.Painted().Rect).(*image.Alpha)
}

func (m *masks) at(p *plane.Path, scale float64) *image.Alpha {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.known == nil {
		m.known = map[float64]*image.Alpha{}
	}
	if m.known[scale] == nil {
		own := Bitmap{scale: scale}
		m.known[scale] = own.maskOf(p, own.touched(p.Bounds()).Intersect(own.touched(m.room)))
	}
	return m.known[scale]
}

// coverage is which part of each pixel lies inside closed lines, as sums to
// add up along each row: a line covers what is to its right, once more where
// it runs down and once less where it runs up. The sums are made in one order
// on every machine, which those of the rasterizer of golang.org/x/image are
// not.
type coverage struct {
	cols, rows int
	sums       []float32 // of each row one more than columns
}

// zeros are the sums of coverages that were written.
var zeros sync.Pool

func newCoverage(cols, rows int) *coverage {
	c := &coverage{cols: cols, rows: rows}
	n := rows * (cols + 1)
	if sums, ok := zeros.Get().(*[]float32); ok && cap(*sums) >= n {
		c.sums = (*sums)[:n]
	} else {
		c.sums = make([]float32, n)
	}
	return c
}

// line adds a line, of which what is above, below and right of the pixels
// covers none.
func (c *coverage) line(x0, y0, x1, y1 float64) {
	sign := 1.0
	if y0 > y1 {
		x0, y0, x1, y1, sign = x1, y1, x0, y0, -1
	}
	if y0 == y1 || y1 <= 0 || y0 >= float64(c.rows) {
		return
	}
	slope := (x1 - x0) / (y1 - y0)
	top, x := max(y0, 0), x0
	if y0 < 0 {
		x = x0 - float64(y0*slope)
	}
	for row := int(top); row < c.rows && top < y1; row++ {
		low, to := float64(row+1), x1
		if low < y1 {
			to = x0 + float64((low-y0)*slope)
		} else {
			low = y1
		}
		c.cross(c.sums[row*(c.cols+1):][:c.cols+1], x, to, float64(sign*(low-top)))
		top, x = low, to
	}
}

// cross adds the part of a line within a row, which runs a height down while
// it goes from one place to another.
func (c *coverage) cross(sums []float32, from, to, height float64) {
	if from > to {
		from, to = to, from
	}
	right := float64(c.cols)
	if to <= 0 || from == to {
		c.column(sums, min(max(from, 0), right), min(max(from, 0), right), height)
		return
	}
	per := height / (to - from)
	if from < 0 {
		c.column(sums, 0, 0, float64(-from*per))
		from = 0
	}
	for to = min(to, right); from < to; {
		next := min(to, math.Floor(from)+1)
		c.column(sums, from, next, float64((next-from)*per))
		from = next
	}
}

// column adds the part of a line within one column.
func (c *coverage) column(sums []float32, from, to, height float64) {
	i := min(int(from), c.cols-1)
	beyond := float64(height * ((from+to)/2 - float64(i))) // what of the pixel lies left of the line
	sums[i] += float32(height - beyond)
	sums[i+1] += float32(beyond)
}

// write writes the coverage as opacity, 0 to 255, row by row. It uses the
// coverage up.
func (c *coverage) write(alpha []uint8) {
	for row := range c.rows {
		sum := float32(0)
		out := alpha[row*c.cols:][:c.cols]
		for i, v := range c.sums[row*(c.cols+1):][:c.cols] {
			sum += v
			out[i] = uint8(min(255, 256*float32(math.Abs(float64(sum)))))
		}
	}
	sums := c.sums // not the field: another picture may hold this by the time it is emptied
	c.sums = nil
	clear(sums)
	zeros.Put(&sums)
}
