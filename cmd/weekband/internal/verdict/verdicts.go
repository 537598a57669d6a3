package verdict

import (
	"context"
	"fmt"
	"io"
	"os"
	"strings"

	"weekband/cmd/weekband/internal/usage"
	"weekband/grid/agreement"
	"weekband/grid/packed"
	"weekband/grid/table"
	"weekband/render/lookup"
)

// Verdicts are how soil thermometers agree with an edition, window by window.
type Verdicts struct {
	edition *lookup.Edition
	list    []verdict
}

// Judge compares the edition in a folder with a table of readings, gzipped or
// not: the window with an id, or all without one. What was repaired in the table
// goes to note before anything is compared.
func Judge(ctx context.Context, dir, readings, id string, note func([]string)) (*Verdicts, error) {
	edition, err := lookup.Open(os.DirFS(dir))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", dir, err)
	}
	wanted, err := wantedWindows(dir, edition, id)
	if err != nil {
		return nil, err
	}
	logs, notes, err := decodeLogs(readings)
	if err != nil {
		return nil, err
	}
	note(notes)
	answers := make([][]lookup.Answer, len(logs))
	for i := range logs {
		if answers[i], err = edition.At(logs[i].At); err != nil {
			return nil, err
		}
	}
	all := &Verdicts{edition: edition}
	for _, i := range wanted {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		v, err := compare(edition, i, logs, answers)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", readings, err)
		}
		all.list = append(all.list, v)
	}
	return all, nil
}

// decodeLogs reads a table of readings.
func decodeLogs(name string) (logs []agreement.Log, notes []string, err error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, nil, err
	}
	defer f.Close()
	text, err := packed.Unzipped(f, name)
	if err != nil {
		return nil, nil, err
	}
	return agreement.Decode(table.Text{Reader: text, Name: name})
}

// wantedWindows returns which windows of the edition in a folder are meant by an
// id, all without one.
func wantedWindows(dir string, e *lookup.Edition, id string) (wanted []int, err error) {
	if e.Depth == 0 {
		return nil, fmt.Errorf("%s maps %s: soil thermometers cannot tell how good it is", dir, e.Measures)
	}
	var ids []string
	for i := range e.Windows {
		ids = append(ids, e.Windows[i].ID)
		if id == "" || id == ids[i] {
			wanted = append(wanted, i)
		}
	}
	if wanted == nil {
		return nil, usage.Errorf("window %q: %s has %s", id, dir, strings.Join(ids, ", "))
	}
	return wanted, nil
}

// Write tells people how thermometers agree with the edition.
func (a *Verdicts) Write(w io.Writer) error {
	e := a.edition
	var b strings.Builder
	fmt.Fprintf(&b, "%s, edition %d: %s\n", e.Title, e.Index.Edition, e.Measures)
	for i := range a.list {
		b.WriteString("\n")
		a.list[i].write(&b, e.Words, e.Period)
	}
	fmt.Fprintf(&b, "\n%s\n", e.Words.Sentences.Caution)
	_, err := io.WriteString(w, b.String())
	return err
}
