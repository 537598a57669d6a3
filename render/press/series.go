package press

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"image"
	"image/color"
	"io"

	"weekband/grid/abreast"
)

// Series is the frames of a series in one set of colours, so that ground which
// stays the same is the same pixels in each. Its methods may be used by
// several goroutines at a time.
type Series struct {
	frames []picture // of one size and palette
	key    Key       // of their bodies
	keeper Keeper
}

// NewSeries returns the series of pages, in their order, each with scale image
// pixels per layout pixel. It paints as many at a time as there are
// processors. It returns an error when there are none or when they differ in
// size, which frames of one atlas with the same caption and legend do not, and
// the errors of Paint.
func NewSeries(pages []*Page, scale float64) (*Series, error) {
	if len(pages) == 0 {
		return nil, errors.New("press: a series without frames")
	}
	first, split := pages[0].size(scale)
	for i, p := range pages {
		if err := p.checkScale(scale); err != nil {
			return nil, err
		}
		if size, at := p.size(scale); size != first || at != split {
			return nil, fmt.Errorf("press: frame %d of a series is %d × %d pixels, the first %d × %d; give all the same caption and legend", i+1, size.X, size.Y, first.X, first.Y)
		}
	}
	s := &Series{frames: make([]picture, len(pages)), keeper: pages[0].keeper}
	if !s.find(pages, scale) {
		s.paint(pages, scale)
	}
	s.heads(pages, scale)
	return s, nil
}

// heads paints the heads of the frames, those that look the same once.
func (s *Series) heads(pages []*Page, scale float64) {
	painted := map[Key]stripe{}
	for i, p := range pages {
		d := newDigest("head")
		p.sumUp(d, p.steps[:p.title])
		k := d.key()
		head, ok := painted[k]
		if !ok {
			head = p.packHead(scale, s.palette())
			painted[k] = head
		}
		s.frames[i].head = head
	}
}

func (s *Series) palette() color.Palette { return s.frames[0].palette }

// find takes the bodies of the frames from the keeper and reports whether they
// were there.
func (s *Series) find(pages []*Page, scale float64) bool {
	if s.keeper == nil {
		return false
	}
	keys := make([]Key, len(pages))
	abreast.Each(len(pages), func(i int) { keys[i] = pages[i].bodyKey(scale, paletteSize-1) })
	d := newDigest("series")
	for _, k := range keys {
		d.text(string(k[:]))
	}
	s.key = d.key()
	data, ok := s.keeper.Get(s.key)
	if !ok {
		return false
	}
	for i := range s.frames {
		length := binary.BigEndian.Uint32(data)
		s.frames[i] = unkeep(data[4:][:length])
		data = data[4+length:]
	}
	return true
}

// paint paints the bodies and gives them to the keeper.
func (s *Series) paint(pages []*Page, scale float64) {
	bodies := make([]*Painting, len(pages))
	abreast.Each(len(pages), func(i int) { bodies[i] = pages[i].paintBody(scale) })
	r := reduce(append(pages[0].inks(), bodies...), paletteSize-1, nil) // one is left for see-through
	abreast.Each(len(pages), func(i int) {
		s.frames[i] = picture{width: bodies[i].size.X, palette: r.palette, body: pack(bodies[i], r.index, true)}
	})
	if s.keeper == nil {
		return
	}
	var all bytes.Buffer
	for _, f := range s.frames {
		data := f.keep()
		all.Write(binary.BigEndian.AppendUint32(nil, uint32(len(data))))
		all.Write(data)
	}
	s.keeper.Put(s.key, all.Bytes())
}

// Size returns the size of every frame in image pixels.
func (s *Series) Size() image.Point {
	return image.Pt(s.frames[0].width, s.frames[0].head.rows+s.frames[0].body.rows)
}

// PNG writes a frame, counted from 0, as a PNG image. It returns the errors of
// w.
func (s *Series) PNG(w io.Writer, frame int) error { return s.frames[frame].png(w) }
