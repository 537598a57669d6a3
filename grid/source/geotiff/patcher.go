package geotiff

import (
	"bytes"
	"io"
)

// patcher writes a stream whose first bytes are known last.
type patcher struct {
	w    io.Writer
	seek io.Seeker // nil: everything is held until finish
	base int64
	held bytes.Buffer
	at   int64
}

func newPatcher(w io.Writer) *patcher {
	p := &patcher{w: w}
	if s, ok := w.(io.Seeker); ok {
		if base, err := s.Seek(0, io.SeekCurrent); err == nil {
			p.seek, p.base = s, base
		}
	}
	return p
}

func (p *patcher) write(b []byte) error {
	p.at += int64(len(b))
	if p.seek == nil {
		p.held.Write(b)
		return nil
	}
	_, err := p.w.Write(b)
	return err
}

// finish replaces the first bytes and leaves the position at the end.
func (p *patcher) finish(head []byte) error {
	if p.seek == nil {
		copy(p.held.Bytes(), head)
		_, err := p.w.Write(p.held.Bytes())
		return err
	}
	if _, err := p.seek.Seek(p.base, io.SeekStart); err != nil {
		return err
	}
	if _, err := p.w.Write(head); err != nil {
		return err
	}
	_, err := p.seek.Seek(p.base+p.at, io.SeekStart)
	return err
}
