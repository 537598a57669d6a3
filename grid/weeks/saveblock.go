package weeks

import (
	"errors"
	"slices"

	"weekband/grid/crossing"
)

// blockHead is what a saved block begins with.
type blockHead struct {
	First, Rows uint32
	Near, Error bool // are known
}

var errBlock = errors.New("saved rows: a block that is none of these rows")

// saveBlock writes a block: its rows, which cells have normals, and the values
// of those cells only.
func saveBlock(s *saver, b *Block) {
	s.put(blockHead{First: uint32(b.First), Rows: uint32(b.Rows), Near: b.Near != nil, Error: b.Windows[0].Error != nil})
	s.put(b.Has)
	var room []float32
	for _, vals := range b.floats() {
		room = packed(room, *vals, b.Has)
		s.put(room)
	}
	var reasons []crossing.Reason
	for i := range b.Windows {
		reasons = packed(reasons, b.Windows[i].Reason, b.Has)
		s.put(reasons)
	}
}

// floats are the slices of numbers that a block has; those that are not known
// are left out.
func (b *Block) floats() (all []*[]float32) {
	all = []*[]float32{&b.Coldest, &b.Warmest, &b.Near}
	for i := range b.Windows {
		w := &b.Windows[i]
		all = append(all, &w.Day, &w.Spread, &w.OntimeFrom, &w.CatchupTo, &w.Slope, &w.Error)
	}
	return slices.DeleteFunc(all, func(vals *[]float32) bool { return *vals == nil })
}

// packed returns the values of the elements that have any, in the room of
// another slice.
func packed[T any](room, vals []T, has []bool) []T {
	room = room[:0]
	for i, v := range vals {
		if has[i] {
			room = append(room, v)
		}
	}
	return room
}

// unpack is the reverse of packed, into vals, which hold nothing yet.
func unpack[T any](vals, packed []T, has []bool) {
	for i, ok := range has {
		if ok {
			vals[i], packed = packed[0], packed[1:]
		}
	}
}

// loadBlock makes b the block that was saved of rows from first on, up to end
// at most.
func loadBlock(l *loader, b *Block, first, end, cols int) {
	var head blockHead
	if l.get(&head); l.err != nil {
		return
	}
	if int(head.First) != first || head.Rows == 0 || int64(head.Rows) > int64(end-first) {
		l.err = errBlock
		return
	}
	b.know(head.Near, head.Error)
	b.fit(first, int(head.Rows), cols)
	l.get(b.Has)
	n := 0
	for _, ok := range b.Has {
		if ok {
			n++
		}
	}
	room := make([]float32, n)
	for _, vals := range b.floats() {
		l.get(room)
		unpack(*vals, room, b.Has)
	}
	reasons := make([]crossing.Reason, n)
	for i := range b.Windows {
		l.get(reasons)
		unpack(b.Windows[i].Reason, reasons, b.Has)
	}
}

// know makes the block one whose nearness to stations, and errors of days, are
// known or not.
func (b *Block) know(near, err bool) {
	b.Near = known(b.Near, near)
	for i := range b.Windows {
		b.Windows[i].Error = known(b.Windows[i].Error, err)
	}
}

// known returns nil for what is not known, and a slice for the rest.
func known(vals []float32, yes bool) []float32 {
	switch {
	case !yes:
		return nil
	case vals == nil:
		return []float32{}
	}
	return vals
}
