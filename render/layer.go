package render

import (
	"sync"
)

// Layer is a drawing that many pages share. A back end may keep what it looks
// like. It must not change.
type Layer struct {
	bounds Rect // nothing is drawn outside
	draw   func(Canvas)
	grey   *Layer // the same in grey

	mu   sync.Mutex
	kept map[float64]*kept // by image pixels per layout pixel
}

// newLayer returns the layer of a drawing.
func newLayer(bounds Rect, draw func(Canvas)) *Layer {
	return &Layer{bounds: bounds, draw: draw, grey: &Layer{bounds: bounds, draw: func(c Canvas) { draw(greyed{to: c}) }}}
}
