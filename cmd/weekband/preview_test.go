package main

import (
	"bytes"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
)

// An interrupt, as Ctrl-C sends it, ends the preview with exit code 0.
func TestPreviewEndsOnInterrupt(t *testing.T) {
	out := t.TempDir()
	for name, text := range map[string]string{"manifest.json": "{}", "index.html": "<p>Vale"} {
		if err := os.WriteFile(filepath.Join(out, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	read, write := io.Pipe()
	ended := make(chan int, 1)
	var log bytes.Buffer
	go func() { ended <- run(t.Context(), []string{"preview", out}, write, &log) }()
	line := make([]byte, 1000)
	n, err := read.Read(line)
	if err != nil {
		t.Fatal(err)
	}
	address := regexp.MustCompile(`^http://127\.0\.0\.1:\d+/ `).FindString(string(line[:n]))
	if address == "" || !strings.Contains(string(line[:n]), out) {
		t.Fatalf("printed %q", line[:n])
	}
	r, err := http.Get(strings.TrimSpace(address))
	if err != nil {
		t.Fatal(err)
	}
	text, err := io.ReadAll(r.Body)
	r.Body.Close()
	if err != nil || string(text) != "<p>Vale" {
		t.Errorf("served %q, %v", text, err)
	}
	self, err := os.FindProcess(os.Getpid())
	if err != nil {
		t.Fatal(err)
	}
	if err := self.Signal(os.Interrupt); err != nil {
		t.Fatal(err)
	}
	select {
	case code := <-ended:
		if code != exitOK || log.Len() > 0 {
			t.Errorf("exit code %d, said %q", code, &log)
		}
	case <-time.After(10 * time.Second):
		t.Fatal("still serving ten seconds after an interrupt")
	}
}

func TestPreviewRefuses(t *testing.T) {
	for _, c := range []struct {
		args []string
		code int
		want string
	}{
		{[]string{"preview", t.TempDir()}, exitData, "is no edition"},
		{[]string{"preview", "gone"}, exitData, "no such file"},
		{[]string{"preview", "gone", "--port", "70000"}, exitUsage, "want 1 to 65535"},
		{[]string{"preview"}, exitUsage, "lacks EDITION"},
	} {
		if code, _, log := weekband(t, c.args...); code != c.code || !strings.Contains(log, c.want) {
			t.Errorf("%q: exit code %d, %q; want %d, %q", c.args, code, log, c.code, c.want)
		}
	}
}
