package geotiff

import (
	"container/list"
	"sync"
)

// block is one decoded strip or tile. Its data is nil where the file holds
// nothing for it.
type block struct {
	number int // unique in the file
	line   int // row of blocks it belongs to, see page.line
	size   int64
	data   []byte
	err    error
	ready  chan struct{} // closed when data and err are set
	refs   int
	place  *list.Element // nil when the block is not kept
}

// cache keeps decoded blocks until room is needed, so that reading a tiled
// file row by row decodes each tile once.
//
// Blocks of the row of blocks being read are not given up for one another:
// where a whole row of blocks does not fit, some stay and the rest are
// decoded again, instead of each pushing out the next one needed.
type cache struct {
	mu     sync.Mutex
	budget int64
	used   int64
	blocks map[int]*block
	order  *list.List // of *block, most recently used in front
	free   [][]byte
}

func newCache(budget int64) *cache {
	return &cache{budget: budget, blocks: map[int]*block{}, order: list.New()}
}

// acquire returns a block, decoded by fill into a buffer of size bytes if it
// is not at hand. fill returns what of the buffer it filled, or nil. The
// caller gives the block back with release.
func (c *cache) acquire(number, line int, size int64, fill func([]byte) ([]byte, error)) (*block, error) {
	c.mu.Lock()
	if b, ok := c.blocks[number]; ok {
		b.refs++
		if b.place != nil {
			c.order.MoveToFront(b.place)
		}
		c.mu.Unlock()
		<-b.ready
		if b.err != nil {
			err := b.err
			c.release(b)
			return nil, err
		}
		return b, nil
	}
	b := &block{number: number, line: line, size: size, refs: 1, ready: make(chan struct{})}
	if c.makeRoom(size, line) {
		b.place = c.order.PushFront(b)
		c.used += size
	}
	c.blocks[number] = b
	buf := c.buffer(int(size))
	c.mu.Unlock()

	b.data, b.err = fill(buf)
	close(b.ready)
	if b.data == nil || b.err != nil {
		c.mu.Lock()
		c.free = append(c.free, buf)
		c.mu.Unlock()
	}
	if b.err != nil {
		err := b.err
		c.release(b)
		return nil, err
	}
	return b, nil
}

// makeRoom gives up blocks of other rows until size bytes fit; false when
// they do not.
func (c *cache) makeRoom(size int64, line int) bool {
	const looks = 32 // the oldest blocks are of other rows, if any is
	e := c.order.Back()
	for i := 0; i < looks && c.used+size > c.budget && e != nil; i++ {
		b, prev := e.Value.(*block), e.Prev()
		if b.refs == 0 && b.line != line {
			c.drop(b)
		}
		e = prev
	}
	return c.used+size <= c.budget
}

// drop forgets a block nobody uses.
func (c *cache) drop(b *block) {
	if b.place != nil {
		c.order.Remove(b.place)
		c.used -= b.size
		b.place = nil
	}
	delete(c.blocks, b.number)
	if b.data != nil && b.err == nil {
		c.free = append(c.free, b.data)
	}
}

// release gives a block back.
func (c *cache) release(b *block) {
	c.mu.Lock()
	defer c.mu.Unlock()
	b.refs--
	if b.refs == 0 && (b.place == nil || b.err != nil) {
		c.drop(b)
	}
}

// buffer returns a buffer of n bytes, a used one if there is.
func (c *cache) buffer(n int) []byte {
	for i := len(c.free) - 1; i >= 0; i-- {
		if buf := c.free[i]; cap(buf) >= n {
			last := len(c.free) - 1
			c.free[i], c.free[last] = c.free[last], nil
			c.free = c.free[:last]
			return buf[:n]
		}
	}
	c.free = c.free[:0] // too small for this file's blocks
	return make([]byte, n)
}
