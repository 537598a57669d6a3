package atlas

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"os"

	"weekband/cmd/weekband/internal/publish"
	"weekband/cmd/weekband/internal/tracing"
	"weekband/render"
)

// sightsFile tells the pages which position their maps show where.
const sightsFile = "data/lookup/sights.js"

// sight is that of a window's two pictures on pages.
type sight struct{ wide, narrow render.Sight }

// sightTable holds the sights of all windows, each once: those of maps that
// stand alike are equal.
type sightTable struct {
	Sights  []json.RawMessage      `json:"sights"`
	Windows map[string]sightOfPair `json:"windows"` // by id
}

// sightOfPair are the indices of the sights of a window's pictures.
type sightOfPair struct {
	Wide   int `json:"wide"`
	Narrow int `json:"narrow"`
}

// add returns the index of a sight in the table.
func (t *sightTable) add(s render.Sight) (int, error) {
	text, err := json.Marshal(s)
	if err != nil {
		return 0, fmt.Errorf("%s: %w", sightsFile, err)
	}
	for i, known := range t.Sights {
		if bytes.Equal(known, text) {
			return i, nil
		}
	}
	t.Sights = append(t.Sights, text)
	return len(t.Sights) - 1, nil
}

// WriteSights writes the sights of the maps of all windows as a script of one
// call, which a page can read from file:// too.
func WriteSights(root *os.Root, drawings []tracing.Window, drawn []Pictures) error {
	t := sightTable{Windows: map[string]sightOfPair{}}
	for i, p := range drawn {
		wide, err := t.add(p.sight.wide)
		if err != nil {
			return err
		}
		narrow, err := t.add(p.sight.narrow)
		if err != nil {
			return err
		}
		t.Windows[drawings[i].Field.Window.ID] = sightOfPair{wide, narrow}
	}
	text, err := json.Marshal(t)
	if err != nil {
		return fmt.Errorf("%s: %w", sightsFile, err)
	}
	return publish.Create(root, sightsFile, func(w io.Writer) error {
		_, err := fmt.Fprintf(w, "weekbandSights(%s)\n", text)
		return err
	})
}
