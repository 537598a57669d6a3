package render

import "sync"

// Layer is a drawing that many pages share. A back end may keep what it looks
// like. It must not change.
type Layer struct {
	room  Rect // nothing is drawn outside
	paint func(Canvas)
	grey  *Layer // the same in grey

	mu   sync.Mutex
	kept map[float64]*kept // by image pixels per layout pixel
}

// newLayer returns the layer of what draw draws, nothing of it outside a room.
func newLayer(room Rect, draw func(Canvas)) *Layer {
	return &Layer{room: room, paint: draw, grey: &Layer{room: room, paint: func(c Canvas) { draw(inGrey(c)) }}}
}

// bounds returns the room outside of which nothing is drawn.
func (l *Layer) bounds() Rect { return l.room }

// draw draws the layer on a canvas.
func (l *Layer) draw(c Canvas) { l.paint(c) }
