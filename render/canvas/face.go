package canvas

import (
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// face is a parsed font that remembers what was looked up in it.
type face struct {
	*sfnt.Font

	mu      sync.RWMutex
	letters map[rune]letter
	shifts  map[[2]sfnt.GlyphIndex]fixed.Int26_6
}

// letter is the glyph of a letter and its width at unitSize.
type letter struct {
	index   sfnt.GlyphIndex
	advance fixed.Int26_6
}

// placed is a letter in a line.
type placed struct {
	letter
	shift fixed.Int26_6 // before it, at unitSize, by the letter before
}

// lookUp returns the letters of a line.
func (f *face) lookUp(s string) []placed {
	out := make([]placed, 0, len(s))
	f.mu.RLock()
	defer f.mu.RUnlock()
	for _, r := range s {
		l, ok := f.letters[r]
		if !ok {
			l = missed(f, func() letter { return f.learn(r) })
		}
		p := placed{letter: l}
		if len(out) > 0 {
			pair := [2]sfnt.GlyphIndex{out[len(out)-1].index, l.index}
			if p.shift, ok = f.shifts[pair]; !ok {
				p.shift = missed(f, func() fixed.Int26_6 { return f.learnShift(pair) })
			}
		}
		out = append(out, p)
	}
	return out
}

// missed learns something under a lock for writing, of one for reading.
func missed[T any](f *face, learn func() T) T {
	f.mu.RUnlock()
	defer f.mu.RLock()
	f.mu.Lock()
	defer f.mu.Unlock()
	return learn()
}

func (f *face) learn(r rune) letter {
	var buf sfnt.Buffer
	index, err := f.GlyphIndex(&buf, r)
	if err != nil {
		panic("canvas: reading a font of our own: " + err.Error())
	}
	advance, err := f.GlyphAdvance(&buf, index, fullSize, font.HintingNone)
	if err != nil {
		panic("canvas: reading a font of our own: " + err.Error())
	}
	f.letters[r] = letter{index: index, advance: advance}
	return f.letters[r]
}

func (f *face) learnShift(pair [2]sfnt.GlyphIndex) fixed.Int26_6 {
	var buf sfnt.Buffer
	k, err := f.Kern(&buf, pair[0], pair[1], fullSize, font.HintingNone)
	if err != nil {
		k = 0 // the font has no shift for the two
	}
	f.shifts[pair] = k
	return k
}
