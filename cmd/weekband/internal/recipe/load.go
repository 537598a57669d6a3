package recipe

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"

	"weekband/grid/table/plain"
)

// Limits of a recipe: a hundred windows take less, and the time and memory to
// read YAML grow with the square of its length and depth.
const (
	mostBytes = 128 << 10
	mostDeep  = 100 // brackets, or dashes, within each other
)

// Load reads the recipe in a file. The error is a Problems when the text can
// be read but is wrong.
func Load(path string) (*Recipe, error) {
	info, err := os.Stat(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("recipe: %s: %w; want the YAML file that describes the run: weekband demo --unpack DIR writes one to start from", path, fs.ErrNotExist)
	}
	if err != nil {
		return nil, fmt.Errorf("recipe: %w", err)
	}
	if !info.Mode().IsRegular() {
		return nil, fmt.Errorf("recipe: %s is no file; want the YAML file that describes the run", path)
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, fmt.Errorf("recipe: %w", err)
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, mostBytes+1))
	if err != nil {
		return nil, fmt.Errorf("recipe: %w", err)
	}
	return Decode(text, path)
}

// plain returns the text as UTF-8 with line feeds, and what was changed; nil
// when it cannot be a recipe, which is noted.
func (d *document) plain(text []byte) (out []byte, notes []string) {
	if len(text) > mostBytes {
		d.problems = append(d.problems, Problem{Text: "more than 128 KB; want the YAML file that describes the run: is this a data file?"})
		return nil, nil
	}
	r := plain.NewReader(bytes.NewReader(text))
	out, err := io.ReadAll(r)
	if e, ok := errors.AsType[*plain.Error](err); ok {
		d.problems = append(d.problems, Problem{Line: e.Line, Col: e.Col, Text: e.Text})
		return nil, nil
	}
	if line, col, deep := tooDeep(out); deep {
		d.problems = append(d.problems, Problem{Line: line, Col: col, Text: fmt.Sprintf("more than %d lists or mappings within each other; a recipe has three", mostDeep)})
		return nil, nil
	}
	if words := r.Notes(); words != nil {
		notes = []string{d.name + ": " + strings.Join(words, "; ")}
	}
	return out, notes
}

// tooDeep reports where more than mostDeep brackets are open, or as many
// dashes begin lists within lists. Remarks do not count; brackets in quotes do.
func tooDeep(text []byte) (line, col int, deep bool) {
	open := 0
	for text := range bytes.Lines(text) {
		line++
		dashes, before := 0, byte(' ')
		for i, c := range text {
			if c == '#' && before == ' ' {
				break
			}
			switch c {
			case '[', '{':
				open++
			case ']', '}':
				open = max(open-1, 0)
			case '-', '?':
				dashes++
			case ' ':
			default:
				dashes = 0
			}
			if open > mostDeep || dashes > mostDeep {
				return line, i + 1, true
			}
			before = c
		}
	}
	return 0, 0, false
}
