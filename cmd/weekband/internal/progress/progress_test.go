package progress

import (
	"bytes"
	"errors"
	"strings"
	"testing"
	"time"
)

// In every manner: what is told of a stage with work, a note, an answer.
func TestManners(t *testing.T) {
	tell := func(p *Teller) {
		p.Aside("looking")
		p.Stage("reading %s", "vale.yaml")
		p.Stage("drawing")
		p.Work(2, "pictures")
		p.Did(2)
		p.Notes([]string{"a", "b <b>"})
		p.Notes([]string{"a", "b <b>", "c"})
		p.Done("done: open %s", "out")
		p.Fail(1, "vale.yaml:3: what", "Try.\n")
		p.Close()
	}
	for _, c := range []struct {
		look  Manner
		quiet bool
		want  string
	}{
		{Lines, false, "reading vale.yaml\ndrawing\n  note: a\n  note: b <b>\n  note: c\ndone: open out\nweekband: vale.yaml:3: what\nTry.\n"},
		{Lines, true, "weekband: vale.yaml:3: what\nTry.\n"},
		{Events, true, `{"event":"error","text":"vale.yaml:3: what","code":1}` + "\n"},
		{Events, false, `{"event":"begin","stage":"looking"}
{"event":"end","stage":"looking","seconds":0}
{"event":"begin","stage":"reading vale.yaml"}
{"event":"end","stage":"reading vale.yaml","seconds":0}
{"event":"begin","stage":"drawing"}
{"event":"note","text":"a"}
{"event":"note","text":"b <b>"}
{"event":"note","text":"c"}
{"event":"end","stage":"drawing","seconds":0,"done":2,"of":2,"unit":"pictures"}
{"event":"done","text":"done: open out","seconds":0}
{"event":"error","text":"vale.yaml:3: what","code":1}
`},
	} {
		var log bytes.Buffer
		tell(New(&log, c.look, c.quiet))
		got := log.String()
		for _, s := range []string{`"seconds":0.01`, `"seconds":0.02`, `"seconds":0.03`} { // a busy machine
			got = strings.ReplaceAll(got, s, `"seconds":0`)
		}
		if got != c.want {
			t.Errorf("%v, quiet %v:\n%s\nwant\n%s", c.look, c.quiet, got, c.want)
		}
	}
	var none *Teller
	none.Stage("nothing")
	none.Work(1, "pages")
	none.Did(1)
	none.Note("nothing")
	none.Done("nothing")
}

// More than 20 notes at a time are counted, in words; as events all are told.
func TestManyNotes(t *testing.T) {
	all := strings.Split(strings.Repeat("x ", 30)+"x", " ")
	var log bytes.Buffer
	New(&log, Lines, false).Notes(all)
	if got := log.String(); strings.Count(got, "note: x\n") != 20 || !strings.Contains(got, "note: and 11 more") {
		t.Errorf("31 notes are told as\n%s", got)
	}
	log.Reset()
	New(&log, Events, false).Notes(all)
	if n := strings.Count(log.String(), "\n"); n != 31 {
		t.Errorf("31 notes are %d events", n)
	}
}

// stuck is a stream that takes nothing until it is let go, as a terminal after
// Ctrl-S.
type stuck struct{ free chan struct{} }

func (s stuck) Write(b []byte) (int, error) { <-s.free; return len(b), nil }

// Work goes on while the log is stuck.
func TestWorkDoesNotWaitForTheLog(t *testing.T) {
	log := stuck{make(chan struct{})}
	p := &Teller{to: log, look: live, columns: func() int { return 80 }, began: time.Now()}
	p.Stage("drawing")
	p.Work(10, "pictures")
	time.Sleep(250 * time.Millisecond) // the live line hangs now
	counted := make(chan struct{})
	go func() {
		for range 10 {
			p.Did(1)
		}
		close(counted)
	}()
	select {
	case <-counted:
	case <-time.After(10 * time.Second):
		t.Error("counting waits for the log")
	}
	close(log.free)
	p.Close()
}

// full is a log on a full disk.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no space") }

func TestALogThatTakesNothing(t *testing.T) {
	for _, look := range []Manner{Lines, Events} {
		p := New(full{}, look, false)
		p.Stage("drawing")
		p.Note("x")
		p.Done("done")
		p.Close()
	}
}
