package lookup

import (
	"bytes"
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"strings"
	"sync"

	"github.com/klauspost/compress/flate"
)

// call returns a script of one call that hands over values, in JSON, which is
// also JavaScript (ECMA-262 from 2019).
func call(function string, values ...any) ([]byte, error) {
	var b bytes.Buffer
	b.WriteString(function + "(")
	for i, v := range values {
		if i > 0 {
			b.WriteByte(',')
		}
		text, err := json.Marshal(v)
		if err != nil {
			return nil, err
		}
		b.Write(text)
	}
	b.WriteString(");\n")
	return b.Bytes(), nil
}

// readCall reads a script that call wrote into values, and refuses any other.
func readCall(fsys fs.FS, name, function string, values ...any) error {
	text, err := fs.ReadFile(fsys, name)
	if err != nil {
		return fmt.Errorf("lookup: %w; build the edition again", err)
	}
	rest, begins := strings.CutPrefix(string(text), function+"(")
	rest, ends := strings.CutSuffix(rest, ");\n")
	if !begins || !ends {
		return fmt.Errorf("%s: want one call %s(…); and nothing else; build the edition again", name, function)
	}
	dec := json.NewDecoder(strings.NewReader("[" + rest + "]"))
	if _, err := dec.Token(); err != nil {
		return fmt.Errorf("%s: %w; build the edition again", name, err)
	}
	for _, v := range values {
		if err := dec.Decode(v); err != nil {
			return fmt.Errorf("%s: %w; build the edition again", name, err)
		}
	}
	if end, err := dec.Token(); err != nil || end != json.Delim(']') || dec.InputOffset() != int64(len(rest)+2) {
		return fmt.Errorf("%s: more than %d values; build the edition again", name, len(values))
	}
	return nil
}

// deflated returns the parts as base64 of one raw deflate stream. Each part has
// its own code: letters only, which is best for noisy numbers, or with
// repetitions, whichever is shorter.
func deflated(parts [][]byte) (string, error) {
	var stream, best, other bytes.Buffer
	p := packers.Get().(*packer)
	defer packers.Put(p)
	for _, part := range parts {
		best.Reset()
		other.Reset()
		p.repeats.Reset(&best)
		p.letters.Reset(&other)
		_, err1 := p.repeats.Write(part)
		_, err2 := p.letters.Write(part)
		if err := errors.Join(err1, err2, p.repeats.Flush(), p.letters.Flush()); err != nil {
			return "", err
		}
		if other.Len() < best.Len() {
			stream.Write(other.Bytes())
		} else {
			stream.Write(best.Bytes())
		}
	}
	stream.Write([]byte{0x03, 0x00}) // a last block without content
	return base64.StdEncoding.EncodeToString(stream.Bytes()), nil
}

// packer deflates in two ways.
type packer struct{ repeats, letters *flate.Writer }

// effort is how hard repetitions are sought, of 9. The utmost saves another
// tenth of the bytes in twenty times the time.
const effort = 7

var packers = sync.Pool{New: func() any {
	repeats, err1 := flate.NewWriter(nil, effort)
	letters, err2 := flate.NewWriter(nil, flate.HuffmanOnly)
	if err := errors.Join(err1, err2); err != nil {
		panic("lookup: " + err.Error()) // efforts of ours
	}
	return &packer{repeats, letters}
}}

// mostBlock bounds what a block may inflate to, so that a damaged one cannot
// fill the memory: 255 windows of 8 bytes a cell and all else.
const mostBlock = blockCells * blockCells * (255*8 + 32)

func inflated(text string) ([]byte, error) {
	packed, err := base64.StdEncoding.DecodeString(text)
	if err != nil {
		return nil, err
	}
	return io.ReadAll(io.LimitReader(flate.NewReader(bytes.NewReader(packed)), mostBlock))
}
