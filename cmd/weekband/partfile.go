package main

import (
	"bufio"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"runtime/debug"

	"weekband/grid/weeks"
)

// partMagic is the first line of a part: a second line says what it is of, the
// rows follow, and at the end the SHA-256 of all before.
const partMagic = "weekband part 1\n"

// partHead is the second line.
type partHead struct {
	Program string `json:"program"`
	Made    string `json:"made_of"` // fieldsKey, in hexadecimal
	From    int    `json:"from"`    // rows [From, To)
	To      int    `json:"to"`
	Partial int64  `json:"partial"` // cells that have normals in some layers only
}

func (h *partHead) span() weeks.Span { return weeks.Span{From: h.From, To: h.To} }

// programName tells one program from others: its version and the state of the
// source that it was built from, where that is known. It is the same on every
// kind of machine.
func programName() string {
	name := "weekband " + version
	if info, ok := debug.ReadBuildInfo(); ok {
		for _, s := range info.Settings {
			if s.Key == "vcs.revision" || s.Key == "vcs.modified" && s.Value == "true" {
				name += " " + s.Key[len("vcs."):] + " " + s.Value
			}
		}
	}
	return name
}

// writePart writes a file for readPart.
func writePart(w io.Writer, head partHead, part *weeks.Part) error {
	sum := sha256.New()
	out := bufio.NewWriterSize(io.MultiWriter(w, sum), 1<<20)
	line, err := json.Marshal(head)
	if err != nil {
		return err
	}
	out.WriteString(partMagic) // a first error stays until Flush
	out.Write(append(line, '\n'))
	if err := errors.Join(part.Save(out), out.Flush()); err != nil {
		return err
	}
	_, err = w.Write(sum.Sum(nil))
	return err
}

// readHead reads what a file is a part of.
func readHead(path string) (head partHead, err error) {
	f, err := os.Open(path)
	if err != nil {
		return head, err
	}
	defer f.Close()
	in := bufio.NewReader(f)
	magic := make([]byte, len(partMagic))
	if _, err := io.ReadFull(in, magic); err != nil || string(magic) != partMagic {
		return head, fmt.Errorf("%s: it is no part of an edition; want a file that weekband build wrote with --rows or --share", path)
	}
	line, err := in.ReadBytes('\n')
	if err == nil {
		err = json.Unmarshal(line, &head)
	}
	if err != nil {
		return head, damagedPart(path)
	}
	return head, nil
}

// readPart adds the rows of a part, as its head tells them, to an assembly. It
// returns an error when they are not what was written.
func readPart(path string, head partHead, into *weeks.Assembly) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return err
	}
	sum := sha256.New()
	in := bufio.NewReaderSize(io.TeeReader(io.NewSectionReader(f, 0, info.Size()-sha256.Size), sum), 1<<20)
	for range 2 { // lines that readHead has read
		if _, err := in.ReadBytes('\n'); err != nil {
			return damagedPart(path)
		}
	}
	if err := into.Load(in, head.span()); err != nil {
		return damagedPart(path)
	}
	want := make([]byte, sha256.Size)
	if _, err := f.ReadAt(want, info.Size()-sha256.Size); err != nil || !bytes.Equal(want, sum.Sum(nil)) {
		return damagedPart(path)
	}
	return nil
}

func damagedPart(path string) error {
	return fmt.Errorf("%s: it is damaged, or was not written to its end; work it out again with weekband build and --rows", path)
}

// keyText writes a key as parts have it.
func keyText(key [sha256.Size]byte) string { return hex.EncodeToString(key[:]) }
