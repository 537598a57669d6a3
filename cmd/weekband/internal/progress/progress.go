package progress

import (
	"fmt"
	"io"
	"os"
	"sync"
	"sync/atomic"
	"time"

	"golang.org/x/term"
)

// Manner is how progress is told.
type Manner int

const (
	Lines  Manner = iota // one line a stage
	live                 // on a terminal, in one line that is drawn anew
	Events               // in JSON, one object a line
)

// New tells on a stream in the manner that is asked for, but live instead
// of lines when the stream is a terminal that can. Nothing is coloured.
func New(to io.Writer, want Manner, hush bool) *Teller {
	p := &Teller{to: to, look: want, quiet: hush, began: time.Now()}
	f, ok := to.(*os.File)
	kind := os.Getenv("TERM")
	if want != Lines || hush || !ok || kind == "" || kind == "dumb" || !term.IsTerminal(int(f.Fd())) {
		return p
	}
	p.look = live
	p.columns = func() int { // asked again for every line: windows are resized
		if columns, _, err := term.GetSize(int(f.Fd())); err == nil && columns > 0 {
			return columns
		}
		return 80
	}
	return p
}

// Teller tells on a stream what a command is doing. The zero value with a
// stream tells lines; nil tells nothing. Work may be counted from any
// goroutine, and never waits for the stream.
type Teller struct {
	to      io.Writer
	look    Manner
	quiet   bool       // errors only
	columns func() int // width of the terminal, for live
	began   time.Time
	noted   int                   // notes told so far
	stood   atomic.Pointer[stage] // in hand; nil between stages

	mu     sync.Mutex // over what follows, the stream, and the total of stages
	drawn  bool       // the live line is on the terminal
	ticker *ticker    // tells how far the stage in hand is; nil without one
}

// stage is one step of a command, with as much of its work as is known.
type stage struct {
	text  string
	began time.Time
	did   atomic.Int64
	total int64  // 0: not known
	unit  string // what is counted, in the plural
	pace  pace
}

// Stage says what begins, and that what was begun before is done.
func (p *Teller) Stage(format string, args ...any) {
	if p == nil {
		return
	}
	p.begin(fmt.Sprintf(format, args...), true)
}

// Aside is stage for commands that answer at once as a rule: it takes no line
// of its own where there is no live one.
func (p *Teller) Aside(format string, args ...any) {
	p.begin(fmt.Sprintf(format, args...), false)
}

// begin begins a stage; line says whether it takes one where there is no live
// one.
func (p *Teller) begin(text string, line bool) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.finish()
	now := time.Now()
	s := &stage{text: text, began: now, pace: newPace(now)}
	p.stood.Store(s)
	switch {
	case p.quiet:
	case p.look == Lines && !line:
	case p.look == Lines:
		fmt.Fprintln(p.to, visible(s.text))
	case p.look == Events:
		p.emit(BeginEvent{"begin", s.text})
		p.tick(time.Second)
	case p.look == live:
		p.tick(time.Second / 10)
	}
}

// Work says how much the stage in hand has to do, in a unit such as "pages".
func (p *Teller) Work(total int, unit string) {
	if p == nil {
		return
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	if s := p.stood.Load(); s != nil {
		s.total, s.unit = int64(total), unit
	}
}

// Did says that n more of the work of the stage in hand is done.
func (p *Teller) Did(n int) {
	if p == nil {
		return
	}
	if s := p.stood.Load(); s != nil {
		s.did.Add(int64(n))
	}
}

// Note tells something the user should know.
func (p *Teller) Note(text string) {
	if p == nil {
		return
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	p.writeNote(text)
}

// Ending tells, while a stage is in hand, that the command was interrupted.
func (p *Teller) Ending() {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.stood.Load() != nil {
		p.writeNote("interrupted: ending what is in hand; Ctrl-C once more ends it at once")
	}
}

// writeNote writes a note; p.mu is held.
func (p *Teller) writeNote(text string) {
	switch {
	case p.quiet:
	case p.look == Events:
		p.emit(NoteEvent{"note", text})
	default:
		p.erase()
		fmt.Fprintf(p.to, "  note: %s\n", visible(text))
	}
}

// Notes tells what the user should know and was not told yet, of a list that
// only grows. At most 20 notes are told at a time, and all of them as events.
func (p *Teller) Notes(all []string) {
	const shown = 20
	if p == nil {
		return
	}
	fresh := all[p.noted:]
	p.noted = len(all)
	for i, n := range fresh {
		if i == shown && p.look != Events {
			p.Note(fmt.Sprintf("and %d more; manifest.json has all", len(fresh)-shown))
			return
		}
		p.Note(n)
	}
}

// Remarks tells what happened to this run alone. It belongs into no manifest,
// unlike notes.
func (p *Teller) Remarks(list []string) {
	for _, r := range list {
		p.Note(r)
	}
}

// Done ends the last stage and says what came of them all.
func (p *Teller) Done(format string, args ...any) {
	if p == nil {
		return
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	p.finish()
	text := fmt.Sprintf(format, args...)
	switch {
	case p.quiet:
	case p.look == Events:
		p.emit(DoneEvent{"done", text, seconds(time.Since(p.began))})
	default:
		p.erase()
		fmt.Fprintln(p.to, visible(text))
	}
}

// Fail tells why the command ends with an exit code other than 0; advice
// follows in words only.
func (p *Teller) Fail(code int, text, advice string) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.look == Events {
		p.emit(ErrorEvent{"error", text, code})
		return
	}
	p.erase()
	fmt.Fprintf(p.to, "weekband: %s\n%s", visible(text), advice)
}

// finish ends the stage in hand; p.mu is held.
func (p *Teller) finish() {
	s := p.stood.Swap(nil)
	if s != nil && p.look == Events && !p.quiet {
		p.emit(EndEvent{"end", s.text, seconds(time.Since(s.began)), s.did.Load(), s.total, s.unit})
	}
}

// Close leaves the terminal clean. Nothing may be told of stages after it.
func (p *Teller) Close() {
	p.mu.Lock()
	t := p.ticker
	p.ticker = nil
	p.stood.Store(nil)
	p.erase()
	p.mu.Unlock()
	t.stop()
}
