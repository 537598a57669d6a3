package publish

import (
	"errors"
	"fmt"
	"io"
	"os"
)

const fileKind = "output file"

// File writes a file beside its final name and gives it that when it is whole
// and on the disk; until then what stood there stays. A link stays, and the
// file that it names is replaced; a device or a pipe is written to.
func File(name string, write func(w io.Writer) error) error {
	info, err := os.Stat(name)
	if err == nil && info.IsDir() {
		return fmt.Errorf("%s %s: it is a folder: name a file", fileKind, name)
	}
	if err == nil && !info.Mode().IsRegular() {
		return through(name, write)
	}
	p, err := locate(name)
	if err != nil {
		return place{shown: name}.wrong(fileKind, err)
	}
	s := &Staging{place: p}
	defer s.Discard()
	if err := s.openFile(); err != nil {
		return p.wrong(fileKind, err)
	}
	return s.writeFile(write)
}

// openFile takes the lock, where the folder of the file is, and tidies up.
func (s *Staging) openFile() (err error) {
	if s.parent, err = os.OpenRoot(s.dir); err != nil {
		return err
	}
	if err := s.secure(); err != nil || s.lock == nil {
		return err
	}
	return s.sweep()
}

// writeFile writes the fresh file, and gives it its name. What write itself
// complains of is returned in its words.
func (s *Staging) writeFile(write func(w io.Writer) error) error {
	s.fresh = s.hidden(fmt.Sprintf("%s%d", freshWord, os.Getpid()))
	f, err := s.parent.OpenFile(s.fresh, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return s.wrong(fileKind, err)
	}
	if err := errors.Join(filled(f, write), f.Close()); err != nil {
		if writing(err) == "" {
			return err
		}
		return s.wrong(fileKind, err)
	}
	s.keepMode()
	if err := s.parent.Rename(s.fresh, s.name); err != nil {
		return s.wrong(fileKind, err)
	}
	s.fresh = ""
	return flushOne(s.parent, ".")
}

// filled writes a file and waits until it is on the disk.
func filled(f *os.File, write func(w io.Writer) error) error {
	if err := write(f); err != nil {
		return err
	}
	return f.Sync()
}

// through writes to what is no regular file.
func through(name string, write func(w io.Writer) error) error {
	f, err := os.OpenFile(name, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	return errors.Join(write(f), f.Close())
}
