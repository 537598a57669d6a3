package canvas

import (
	"sync"

	"weekband/render/plane"
)

// Layer is a drawing that many pages share. A back end may keep what it looks
// like. It must not change.
type Layer struct {
	room  plane.Rect // nothing is drawn outside
	paint func(Canvas)
	grey  *Layer // the same in grey

	mu   sync.Mutex
	kept map[float64]*kept // by image pixels per layout pixel
}

// NewLayer returns the layer of what draw draws, nothing of it outside a room in
// layout pixels. It may be drawn by several goroutines at a time.
func NewLayer(room plane.Rect, draw func(Canvas)) *Layer {
	return &Layer{room: room, paint: draw, grey: &Layer{room: room, paint: func(c Canvas) { draw(InGrey(c)) }}}
}

// Bounds returns the room outside of which nothing is drawn.
func (l *Layer) Bounds() plane.Rect { return l.room }

// Draw draws the layer on a canvas.
func (l *Layer) Draw(c Canvas) { l.paint(c) }
