package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/progress"
)

// wholly checks that the events of a build are in order, that its stages ended,
// and that they did as much as they said they would.
func wholly(t *testing.T, log string, stages ...string) {
	t.Helper()
	var began, ended []string
	list := toldEvents(t, log)
	for _, e := range list {
		switch e := e.(type) {
		case progress.BeginEvent:
			if len(began) != len(ended) {
				t.Errorf("%q begins before %q ends", e.Stage, began[len(began)-1])
			}
			began = append(began, e.Stage)
		case progress.EndEvent:
			ended = append(ended, e.Stage)
			if e.Done != e.Of {
				t.Errorf("%s: %d of %d %s were counted", e.Stage, e.Done, e.Of, e.Unit)
			}
			if (e.Of > 0) != (e.Unit != "") {
				t.Errorf("%s: %d of %q", e.Stage, e.Of, e.Unit)
			}
		case progress.ProgressEvent:
			if e.Done > e.Of || e.Stage != began[len(began)-1] || e.Rate < 0 {
				t.Errorf("progress %+v in stage %s", e, began[len(began)-1])
			}
		case progress.ErrorEvent:
			t.Errorf("error %+v", e)
		}
	}
	if _, ok := list[len(list)-1].(progress.DoneEvent); !ok || !reflect.DeepEqual(began, ended) {
		t.Errorf("stages %q ended as %q; the last event is %+v", began, ended, list[len(list)-1])
	}
	for _, want := range stages {
		if !strings.Contains(strings.Join(ended, "\n"), want) {
			t.Errorf("no stage %q among %q", want, ended)
		}
	}
}

func TestEventsOfABuild(t *testing.T) {
	unraced(t)
	path := islet(t)
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, bytes.Replace(text, []byte("maps: none"), []byte("maps: [early, spread, worth]"), 1), 0o644); err != nil {
		t.Fatal(err)
	}
	code, out, log := weekband(t, "build", path, "--json", "--out", filepath.Join(t.TempDir(), "out"))
	if code != exitOK || out != "" {
		t.Fatalf("exit code %d; %q on standard output\n%s", code, out, log)
	}
	wholly(t, log, "reading", "working out", "drawing", "writing pages")
	notes := 0
	for _, e := range toldEvents(t, log) {
		if n, ok := e.(progress.NoteEvent); ok && strings.Contains(n.Text, "no map of the spread") {
			notes++
		}
	}
	if notes != 1 {
		t.Errorf("%d notes that there is no map of the spread, want 1:\n%s", notes, log)
	}
}

// toldEvents reads a log of --json: every line is an object of a known kind
// with fields of that kind alone.
func toldEvents(t *testing.T, log string) (list []any) {
	t.Helper()
	for line := range strings.Lines(log) {
		var kind struct{ Event string }
		if err := json.Unmarshal([]byte(line), &kind); err != nil {
			t.Fatalf("%q: %v", line, err)
		}
		into := map[string]any{
			"begin": &progress.BeginEvent{}, "progress": &progress.ProgressEvent{}, "end": &progress.EndEvent{},
			"note": &progress.NoteEvent{}, "done": &progress.DoneEvent{}, "error": &progress.ErrorEvent{},
		}[kind.Event]
		if into == nil {
			t.Fatalf("%q: no kind of event", line)
		}
		dec := json.NewDecoder(strings.NewReader(line))
		dec.DisallowUnknownFields()
		if err := dec.Decode(into); err != nil {
			t.Fatalf("%q: %v", line, err)
		}
		list = append(list, reflect.ValueOf(into).Elem().Interface())
	}
	if len(list) == 0 {
		t.Fatal("no events")
	}
	return list
}
