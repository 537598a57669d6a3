package render

import (
	"fmt"

	"rsc.io/qr"

	"weekband/render/canvas"
	"weekband/render/plane"
	"weekband/render/press"
)

// code is an address as a code to scan (QR code, ISO/IEC 18004).
type code struct{ squares *qr.Code }

// quiet is the light rim around a code in squares, as the standard asks.
const quiet = 4

// newCode returns the code of an address, nil for none. It returns an error
// when the address is too long for a code.
func newCode(address string) (*code, error) {
	if address == "" {
		return nil, nil
	}
	squares, err := qr.Encode(address, qr.M)
	if err != nil {
		return nil, fmt.Errorf("render: the address of %d bytes makes no code: %w; give a shorter one", len(address), err)
	}
	return &code{squares: squares}, nil
}

// width is the width of the code with its rim at a unit.
func (c *code) width(u float64) float64 { return float64(7.2 * u) }

// draw draws the code at the top right of a room and returns the y under it.
func (c *code) draw(p *press.Page, u float64, room plane.Rect) float64 {
	side := c.width(u)
	step := side / float64(c.squares.Size+2*quiet)
	var dark plane.Path
	for y := range c.squares.Size {
		for x := 0; x < c.squares.Size; {
			if !c.squares.Black(x, y) {
				x++
				continue
			}
			run := x
			for run < c.squares.Size && c.squares.Black(run, y) {
				run++
			}
			left, top := room.Right-side+float64(float64(x+quiet)*step), room.Top+float64(float64(y+quiet)*step)
			dark.AddRect(plane.Rect{Left: left, Top: top, Right: left + float64(float64(run-x)*step), Bottom: top + step})
			x = run
		}
	}
	p.Add(func(c canvas.Canvas) { c.Fill(&dark, canvas.TextInk) })
	return room.Top + side
}
