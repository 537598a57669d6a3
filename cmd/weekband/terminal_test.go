package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"

	"github.com/creack/pty"

	"weekband/cmd/weekband/internal/progress"
)

// screen is a terminal that knows no more than what ECMA-48 says of the codes
// that a live line needs: what is printed, carriage return, line feed, erase
// in display.
type screen struct {
	columns  int
	rows     []string
	row, col int
	live     []string // rows as they were when the cursor came back to their beginning
}

// feed shows bytes on the screen, and fails for a code it does not know and
// for a line that would wrap.
func (s *screen) feed(t *testing.T, text string) {
	t.Helper()
	for len(text) > 0 {
		r := []rune(text)[0]
		switch {
		case strings.HasPrefix(text, "\x1b[J"):
			s.rows = s.rows[:min(len(s.rows), s.row+1)]
			if s.row < len(s.rows) {
				s.rows[s.row] = string([]rune(s.rows[s.row])[:s.col])
			}
			text = text[3:]
			continue
		case r == '\r':
			if s.col > 0 && !strings.HasPrefix(text, "\r\n") {
				s.live = append(s.live, s.rows[s.row])
			}
			s.col = 0
		case r == '\n':
			s.row++
		case r < ' ':
			t.Fatalf("the terminal was sent %q", text[:min(len(text), 12)])
		default:
			s.put(r)
			if s.col >= s.columns {
				t.Fatalf("a line of more than %d columns: %q", s.columns-1, s.rows[s.row])
			}
		}
		text = text[len(string(r)):]
	}
}

func (s *screen) put(r rune) {
	for len(s.rows) <= s.row {
		s.rows = append(s.rows, "")
	}
	line := []rune(s.rows[s.row])
	if s.col < len(line) {
		line[s.col] = r
	} else {
		line = append(line, r)
	}
	s.rows[s.row] = string(line)
	s.col++
}

// onTerminal runs a child on a real terminal of some width and returns what it
// sent there, and its exit code; at is called once with the terminal's other
// end and all that was sent until then, whenever there is more.
func onTerminal(t *testing.T, columns int, cmd *exec.Cmd, at func(master *os.File, sent string) (done bool)) (sent string, code int) {
	t.Helper()
	if runtime.GOOS == "windows" {
		t.Skip("no pseudo-terminals")
	}
	master, err := pty.StartWithSize(cmd, &pty.Winsize{Rows: 24, Cols: uint16(columns)})
	if err != nil {
		t.Fatal(err)
	}
	defer master.Close()
	var all bytes.Buffer
	buf := make([]byte, 4096)
	for {
		n, err := master.Read(buf)
		all.Write(buf[:n])
		if at != nil && at(master, all.String()) {
			at = nil
		}
		if err != nil { // EIO once the child is gone
			break
		}
	}
	return all.String(), codeOf(t, cmd.Wait())
}

// A build on a terminal draws its line again and again, within the width, and
// leaves only what it says at the end.
func TestLiveLineOfABuild(t *testing.T) {
	unraced(t)
	path := islet(t)
	for _, columns := range []int{40, 80, 200} {
		out := filepath.Join(t.TempDir(), "out")
		sent, code := onTerminal(t, columns, child(t, "build", path, "--out", out), nil)
		if code != exitOK {
			t.Fatalf("exit code %d\n%s", code, sent)
		}
		s := screen{columns: columns}
		// The notes and the end are lines as long as they are: of these only what
		// the live line leaves around them is looked at.
		long := screen{columns: 1000}
		long.feed(t, sent)
		want := fmt.Sprintf("done: open %s", filepath.Join(out, "index.html"))
		for i, row := range long.rows {
			if row != "" && row != want && !strings.HasPrefix(row, "  note: ") {
				t.Errorf("%d columns: row %d is left as %q", columns, i, row)
			}
		}
		if !strings.Contains(strings.Join(long.rows, "\n"), want) {
			t.Errorf("%d columns: no %q in\n%s", columns, want, strings.Join(long.rows, "\n"))
		}
		drawing := ""
		for _, line := range long.live {
			s.feed(t, line+"\r")
			if strings.HasPrefix(line, "drawing") && strings.Contains(line, "%") {
				drawing = line
			}
		}
		if drawing == "" {
			t.Errorf("%d columns: no live line of the drawing among %q", columns, long.live)
		}
		if columns >= 80 && !(strings.Contains(drawing, "pictures") && strings.Contains(drawing, "[")) {
			t.Errorf("%d columns: %q lacks a bar or the count", columns, drawing)
		}
		t.Logf("%d columns: %s", columns, drawing)
	}
}

// Ctrl-C typed at the terminal ends a build with 130 and leaves no line.
func TestCtrlCOnATerminal(t *testing.T) {
	unraced(t)
	out := filepath.Join(t.TempDir(), "out")
	sent, code := onTerminal(t, 80, child(t, "build", islet(t), "--out", out), func(master *os.File, sent string) bool {
		if !strings.Contains(sent, "drawing") {
			return false
		}
		_, err := master.Write([]byte{3})
		return err == nil
	})
	if code != exitInterrupted {
		t.Fatalf("exit code %d, want %d\n%s", code, exitInterrupted, sent)
	}
	s := screen{columns: 1000}
	s.feed(t, strings.ReplaceAll(sent, "^C", "")) // the terminal's own echo
	want := "note: interrupted: ending what is in hand; Ctrl-C once more ends it at once\nweekband: interrupted; what stood before stands still"
	if got := strings.TrimSpace(strings.Join(s.rows, "\n")); got != want {
		t.Errorf("what is left on the terminal is %q", got)
	}
	if _, err := os.Stat(out); err == nil {
		t.Error("an interrupted build left an edition")
	}
}

// Exit codes as a shell sees them.
func TestExitCodes(t *testing.T) {
	dir := t.TempDir()
	broken := filepath.Join(dir, "broken.yaml")
	if err := os.WriteFile(broken, []byte("title: Broken\ncolour: blue\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		args []string
		code int
		want string // on standard error
	}{
		{[]string{"version"}, exitOK, ""},
		{[]string{"--help"}, exitOK, ""},
		{[]string{"build", broken}, exitData, "broken.yaml"},
		{[]string{"inspect", filepath.Join(dir, "none.tif")}, exitData, "none.tif"},
		{[]string{"build", "--nosuch", broken}, exitUsage, "--nosuch"},
		{[]string{"build"}, exitUsage, "lacks RECIPE"},
		{[]string{"-q", "build", broken}, exitData, "broken.yaml"},
	} {
		cmd := child(t, c.args...)
		var log bytes.Buffer
		cmd.Stderr, cmd.Dir = &log, dir
		if code := codeOf(t, cmd.Run()); code != c.code || !strings.Contains(log.String(), c.want) || c.want == "" && log.Len() > 0 {
			t.Errorf("%q: exit code %d, want %d; it says %q", c.args, code, c.code, log.String())
		}
	}
}

// A signal from outside ends a build with 130 as well, and says so as an event.
func TestInterruptIsAnEvent(t *testing.T) {
	unraced(t)
	if runtime.GOOS == "windows" {
		t.Skip("no signals")
	}
	for _, signal := range []os.Signal{os.Interrupt, syscall.SIGTERM} {
		cmd := child(t, "build", islet(t), "--json", "--out", filepath.Join(t.TempDir(), "out"))
		log, err := cmd.StderrPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		var all bytes.Buffer
		buf := make([]byte, 4096)
		for sent := false; ; {
			n, err := log.Read(buf)
			all.Write(buf[:n])
			if !sent && strings.Contains(all.String(), "drawing") {
				sent = cmd.Process.Signal(signal) == nil
			}
			if err != nil {
				break
			}
		}
		if code := codeOf(t, cmd.Wait()); code != exitInterrupted {
			t.Fatalf("%v: exit code %d, want %d\n%s", signal, code, exitInterrupted, all.String())
		}
		if list := toldEvents(t, all.String()); list[len(list)-1].(progress.ErrorEvent).Code != exitInterrupted {
			t.Errorf("%v: the last event is %+v", signal, list[len(list)-1])
		}
	}
}
