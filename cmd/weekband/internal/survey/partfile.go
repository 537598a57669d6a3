package survey

import (
	"bufio"
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io"
	"os"

	"weekband/grid/weeks"
)

// partMagic is the first line of a part. The second says what it is of; then
// come the rows, how many cells have normals in some layers only, 8 bytes, and
// the SHA-256 of all before.
const partMagic = "weekband part 1\n"

// partEnd is how many bytes follow the rows.
const partEnd = 8 + sha256.Size

// partHead is the second line.
type partHead struct {
	Program string `json:"program"`
	Made    string `json:"made_of"` // fieldsKey, in hexadecimal
	From    int    `json:"from"`    // rows [From, To)
	To      int    `json:"to"`
}

func (h *partHead) span() weeks.Span { return weeks.Span{From: h.From, To: h.To} }

// keyText writes a key as parts have it.
func keyText(key [sha256.Size]byte) string { return hex.EncodeToString(key[:]) }

// writePart writes a part, whose rows write writes; it returns how many cells
// have normals in some layers only.
func writePart(w io.Writer, head partHead, write func(io.Writer) (partial int64, err error)) error {
	sum := sha256.New()
	out := bufio.NewWriterSize(io.MultiWriter(w, sum), 1<<20)
	line, err := json.Marshal(head)
	if err != nil {
		return err
	}
	out.WriteString(partMagic) // a first error stays until Flush
	out.Write(append(line, '\n'))
	partial, err := write(out)
	if err != nil {
		return err
	}
	out.Write(binary.LittleEndian.AppendUint64(nil, uint64(partial)))
	if err := out.Flush(); err != nil {
		return err
	}
	_, err = w.Write(sum.Sum(nil))
	return err
}

// partFile is a part that is known to be whole.
type partFile struct {
	path    string
	head    partHead
	from    int64 // where the rows begin, and how many bytes they have
	bytes   int64
	partial int64
}

// openPart reads a part through and returns an error unless it is whole.
func openPart(path string) (p partFile, err error) {
	f, err := os.Open(path)
	if err != nil {
		return p, err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return p, err
	}
	sum := sha256.New()
	in := bufio.NewReaderSize(io.TeeReader(io.LimitReader(f, info.Size()-sha256.Size), sum), 1<<20)
	magic := make([]byte, len(partMagic))
	if _, err := io.ReadFull(in, magic); err != nil || string(magic) != partMagic {
		return p, fmt.Errorf("%s: it is no part of an edition, or was cut off; want a file that weekband build wrote with --rows or --share", path)
	}
	line, err := in.ReadBytes('\n')
	if err == nil {
		err = json.Unmarshal(line, &p.head)
	}
	if err == nil {
		_, err = io.Copy(io.Discard, in)
	}
	tail := make([]byte, partEnd)
	p.path, p.from = path, int64(len(partMagic)+len(line))
	p.bytes = info.Size() - partEnd - p.from
	if err == nil {
		_, err = f.ReadAt(tail, max(info.Size()-partEnd, 0))
	}
	if err != nil || p.bytes < 0 || !bytes.Equal(tail[8:], sum.Sum(nil)) {
		return p, damagedPart(path)
	}
	p.partial = int64(binary.LittleEndian.Uint64(tail))
	return p, nil
}

// read gives the rows of a part to take.
func (p *partFile) read(take func(r io.Reader, rows weeks.Span) error) error {
	f, err := os.Open(p.path)
	if err != nil {
		return err
	}
	defer f.Close()
	return take(bufio.NewReaderSize(io.NewSectionReader(f, p.from, p.bytes), 1<<20), p.head.span())
}

func damagedPart(path string) error {
	return fmt.Errorf("%s: it is damaged; work its rows out again with weekband build and --rows", path)
}
