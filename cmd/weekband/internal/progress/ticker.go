package progress

import (
	"math"
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

// memory is how far back a pace looks: what was done that long ago counts for
// 1/e of what is done now.
const memory = 10 * time.Second

// pace is how fast work goes, from what was done lately.
type pace struct {
	at      time.Time
	did     int64
	n, took float64 // done, and seconds it took, both fading
}

func newPace(now time.Time) pace { return pace{at: now} }

// rate counts what is done by now and returns how much is done a second.
func (p *pace) rate(now time.Time, did int64) float64 {
	dt := now.Sub(p.at).Seconds()
	if dt > 0 {
		fade := math.Exp(-dt / memory.Seconds())
		p.n, p.took = float64(p.n*fade)+float64(did-p.did), float64(p.took*fade)+dt
		p.at, p.did = now, did
	}
	if p.took == 0 {
		return 0
	}
	return p.n / p.took
}

// extent is how far a stage is at one time.
type extent struct {
	text       string
	did, total int64 // total 0: not known
	unit       string
	rate       float64 // of unit a second
	elapsed    time.Duration
	left       time.Duration // negative: not known
}

// settles is how long a stage must run before its rate and time left are told.
const settles = time.Second

func (s *stage) measure(now time.Time) extent {
	r := extent{text: s.text, did: s.did.Load(), total: s.total, unit: s.unit, elapsed: now.Sub(s.began), left: -1}
	r.rate = s.pace.rate(now, r.did)
	if r.total > 0 {
		r.did = min(r.did, r.total)
	}
	if r.total > 0 && r.rate > 0 && r.elapsed >= settles {
		r.left = time.Duration(float64(r.total-r.did) / r.rate * float64(time.Second))
	}
	return r
}
