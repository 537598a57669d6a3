package render

import (
	"errors"
	"fmt"
	"image"
	"io"
)

// Series is the paintings of a series of frames in one set of colours, so
// that ground which stays the same is the same pixels in each. Its methods
// may be used by several goroutines at a time.
type Series struct {
	frames []*Painting
	reduction
}

// NewSeries returns the series of frames, in their order. It returns an error
// when there are none or when they differ in size, which frames of one atlas
// with the same caption and legend do not.
func NewSeries(frames []*Painting) (*Series, error) {
	if len(frames) == 0 {
		return nil, errors.New("render: a series without frames")
	}
	for i, f := range frames {
		if f.size != frames[0].size {
			return nil, fmt.Errorf("render: frame %d of a series is %d × %d pixels, the first %d × %d; give all the same caption and legend", i+1, f.size.X, f.size.Y, frames[0].size.X, frames[0].size.Y)
		}
	}
	return &Series{frames: frames, reduction: reduce(frames, paletteSize-1, nil)}, nil // one is left for see-through
}

// Size returns the size of every frame in image pixels.
func (s *Series) Size() image.Point { return s.frames[0].size }

// PNG writes a frame, counted from 0, as a PNG image. It returns the errors of
// w.
func (s *Series) PNG(w io.Writer, frame int) error { return s.frames[frame].encode(w, s.reduction) }
