package progress

import (
	"time"
)

// ticker calls a function from a goroutine of its own until it is stopped.
type ticker struct{ quit, gone chan struct{} }

func newTicker(every time.Duration, call func(now time.Time)) *ticker {
	t := &ticker{quit: make(chan struct{}), gone: make(chan struct{})}
	go func() {
		defer close(t.gone)
		clock := time.NewTicker(every)
		defer clock.Stop()
		for {
			select {
			case now := <-clock.C:
				call(now)
			case <-t.quit:
				return
			}
		}
	}()
	return t
}

// stop returns when the function is called no more; a nil ticker is stopped.
func (t *ticker) stop() {
	if t == nil {
		return
	}
	close(t.quit)
	<-t.gone
}

// tick begins to tell how far the stage in hand is; p.mu is held.
func (p *Teller) tick(every time.Duration) {
	if p.ticker == nil {
		p.ticker = newTicker(every, p.told)
	}
}

// told tells how far the stage in hand is.
func (p *Teller) told(now time.Time) {
	p.mu.Lock()
	defer p.mu.Unlock()
	s := p.stood.Load()
	if s == nil {
		return
	}
	at := s.measure(now)
	switch {
	case p.look == live:
		p.draw(barLine(p.columns()-1, at))
	case at.total > 0:
		p.emit(newProgressEvent(at))
	}
}
