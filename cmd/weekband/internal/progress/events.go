package progress

import (
	"encoding/json"
	"math"
	"time"
)

// The events of --json, each with its kind first. README.md has their fields.
type (
	BeginEvent struct {
		Event string `json:"event"`
		Stage string `json:"stage"`
	}
	ProgressEvent struct {
		Event string   `json:"event"`
		Stage string   `json:"stage"`
		Done  int64    `json:"done"`
		Of    int64    `json:"of"`
		Unit  string   `json:"unit"`
		Rate  float64  `json:"rate"`           // of unit a second
		Left  *float64 `json:"left,omitempty"` // seconds; absent while not known
	}
	EndEvent struct {
		Event   string  `json:"event"`
		Stage   string  `json:"stage"`
		Seconds float64 `json:"seconds"`
		Done    int64   `json:"done,omitzero"`
		Of      int64   `json:"of,omitzero"`
		Unit    string  `json:"unit,omitzero"`
	}
	NoteEvent struct {
		Event string `json:"event"`
		Text  string `json:"text"`
	}
	DoneEvent struct {
		Event   string  `json:"event"`
		Text    string  `json:"text"`
		Seconds float64 `json:"seconds"`
	}
	ErrorEvent struct {
		Event string `json:"event"`
		Text  string `json:"text"`
		Code  int    `json:"code"` // the exit code
	}
)

func newProgressEvent(r extent) ProgressEvent {
	e := ProgressEvent{Event: "progress", Stage: r.text, Done: r.did, Of: r.total, Unit: r.unit, Rate: hundredths(r.rate)}
	if r.left >= 0 {
		left := seconds(r.left)
		e.Left = &left
	}
	return e
}

// emit writes an event; p.mu is held.
func (p *Teller) emit(event any) {
	out := json.NewEncoder(p.to)
	out.SetEscapeHTML(false)
	_ = out.Encode(event) // that nobody reads the log any more is no reason to stop
}

func hundredths(v float64) float64 { return math.Round(100*v) / 100 }

func seconds(d time.Duration) float64 { return hundredths(d.Seconds()) }
