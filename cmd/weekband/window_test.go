package main

import (
	"io"
	"runtime"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/creack/pty"

	"weekband/cmd/weekband/internal/progress"
)

// A narrower window is respected from the next line on, notes stand above, and
// nothing of the line is left.
func TestLiveLineFollowsTheWindow(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("no pseudo-terminals")
	}
	t.Setenv("TERM", "xterm")
	master, terminal, err := pty.Open()
	if err != nil {
		t.Fatal(err)
	}
	defer master.Close()
	read := make(chan string)
	go func() {
		all, _ := io.ReadAll(master)
		read <- string(all)
	}()
	resize := func(columns int) {
		if err := pty.Setsize(terminal, &pty.Winsize{Rows: 24, Cols: uint16(columns)}); err != nil {
			t.Error(err)
		}
	}
	resize(120)
	p := progress.New(terminal, progress.Lines, false)
	p.Stage("summing up the regions of a territory with a long name")
	p.Work(200, "regions")
	for step := range 3 {
		p.Did(50)
		time.Sleep(250 * time.Millisecond)
		switch step {
		case 0:
			p.Note("a \x1b[31mred\x1b[0m region")
		case 1:
			resize(30)
		}
	}
	io.WriteString(p.Above(terminal), "an answer\n")
	p.Close()
	terminal.Close()
	sent := <-read
	s := screen{columns: 120}
	s.feed(t, sent)
	if got, want := strings.Join(s.rows, "|"), `  note: a \x1b[31mred\x1b[0m region|an answer`; got != want && got != want+"|" {
		t.Errorf("what is left is %q, want %q", got, want)
	}
	first, last := s.live[0], s.live[len(s.live)-1]
	if !strings.Contains(first, "50 of 200 regions") || !strings.Contains(first, "]  25 %") || len(first) < 60 {
		t.Errorf("first line %q", first)
	}
	if utf8.RuneCountInString(last) > 29 || !strings.Contains(last, "75 %") {
		t.Errorf("the line in a window of 30 columns is %q", last)
	}
}
