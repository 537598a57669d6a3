//go:build unix

package publish_test

import (
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"weekband/cmd/weekband/internal/publish"
	"weekband/grid/oracle"
)

// Disks of several sizes run out of room at several places; one runs out of
// files. tmpfs(5) counts its pages of 4 KiB.
func TestFullDisk(t *testing.T) {
	for _, options := range []string{
		"size=200k", "size=212k", "size=260k", "size=300k", "size=328k", // one edition takes 164 KiB
		"size=1m,nr_inodes=52", "size=1m,nr_inodes=53", "size=1m,nr_inodes=70", "size=1m,nr_inodes=93", // it takes 46
	} {
		t.Run(options, func(t *testing.T) {
			target := filepath.Join(oracle.Memory(t, options), "vale")
			again(t, target, "first")
			s, err := publish.Begin(target)
			if err == nil {
				err = s.End(fill(s, "second"))
			}
			if err == nil || !strings.Contains(err.Error(), "no room is left there for more bytes, or for more files") {
				t.Errorf("said %v", err)
			}
			if which := edition(t, target); which != "first" {
				t.Errorf("it stands %s", which)
			}
			alone(t, target)
			if err := publish.File(filepath.Join(target, publish.Marker), func(w io.Writer) error {
				_, err := w.Write(make([]byte, 2<<20))
				return err
			}); err == nil || !strings.Contains(err.Error(), "no room is left") {
				t.Errorf("a file: %v", err)
			}
			edition(t, target)
			if err := os.RemoveAll(target); err != nil { // make room
				t.Fatal(err)
			}
			again(t, target, "third")
		})
	}
}

func TestReadOnlyDisk(t *testing.T) {
	disk := oracle.Memory(t, "size=1m")
	target := filepath.Join(disk, "vale")
	again(t, target, "first")
	oracle.Run(t, nil, "mount", "-o", "remount,ro", disk)
	for name, err := range map[string]error{
		"a folder":     begun(target),
		"a new folder": begun(filepath.Join(disk, "other", "vale")),
		"a file":       publish.File(filepath.Join(target, publish.Marker), func(io.Writer) error { return nil }),
	} {
		if err == nil || !strings.Contains(err.Error(), "nothing can be written there; name another place with --out") {
			t.Errorf("%s: %v", name, err)
		}
	}
	edition(t, target)
	oracle.Run(t, nil, "mount", "-o", "remount,rw", disk)
	again(t, target, "second")
}

// Another user may not write, or may write but not remove the previous
// edition.
func TestOtherUser(t *testing.T) {
	oracle.Privileged(t)
	const nobody = 65534
	dir := t.TempDir()
	if err := os.Chmod(filepath.Dir(dir), 0o755); err != nil { // let others in
		t.Fatal(err)
	}
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	program := filepath.Join(dir, "program")
	oracle.Run(t, nil, "cp", self, program)
	as := func(target string) (string, error) {
		cmd := exec.Command(program)
		cmd.Dir = dir
		cmd.Env = append(os.Environ(), childVariable+"=once "+target)
		cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
		text, err := cmd.CombinedOutput()
		return string(text), err
	}

	closed := filepath.Join(dir, "closed", "vale")
	again(t, closed, "first")
	if text, err := as(closed); err == nil || !strings.Contains(text, "you may not write there; name another place with --out") {
		t.Errorf("%v, said %q", err, text)
	}
	edition(t, closed)
	alone(t, closed)

	// In a folder of its own it finds an edition of root.
	open := filepath.Join(dir, "open", "vale")
	again(t, open, "first")
	if err := os.Chown(filepath.Dir(open), nobody, nobody); err != nil {
		t.Fatal(err)
	}
	if text, err := as(open); err != nil {
		t.Errorf("%v, said %q", err, text)
	}
	if which := edition(t, open); which == "first" {
		t.Errorf("it stands %s", which)
	}
	notes := again(t, open, "second") // root can remove what was left
	if len(notes) > 0 {
		t.Error(notes)
	}
}

// A folder keeps what its owner has allowed and forbidden.
func TestModeIsKept(t *testing.T) {
	target := filepath.Join(t.TempDir(), "vale")
	again(t, target, "first")
	if err := os.Chmod(target, 0o550); err != nil {
		t.Fatal(err)
	}
	again(t, target, "second")
	again(t, target, "third")
	info, err := os.Stat(target)
	if err != nil || info.Mode().Perm() != 0o550 {
		t.Errorf("%v, %v", info.Mode(), err)
	}
	if err := os.Chmod(target, 0o755); err != nil { // so that the test's folder can be removed
		t.Fatal(err)
	}
}

// Two at once: the second is told of the first, until that ends in whatever
// way.
func TestTwoAtOnce(t *testing.T) {
	target := filepath.Join(t.TempDir(), "vale")
	again(t, target, "first")
	cmd := child(t, "hold", target)
	if _, err := cmd.StdinPipe(); err != nil {
		t.Fatal(err)
	}
	await(t, cmd, "held")
	before := edition(t, target)
	link := filepath.Join(t.TempDir(), "link")
	if err := os.Symlink(target, link); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{target, link} {
		err := begun(name)
		want := fmt.Sprintf("output folder %s: another weekband (process %d, since 20", name, cmd.Process.Pid)
		if err == nil || !strings.HasPrefix(err.Error(), want) || !strings.HasSuffix(err.Error(), "wait for its end, or name another place with --out") {
			t.Errorf("said %v, want %s…", err, want)
		}
	}
	if err := begun(target + "-other"); err != nil {
		t.Error(err)
	}
	if which := edition(t, target); which != before {
		t.Errorf("it stands %s", which)
	}
	if err := cmd.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	cmd.Wait()
	again(t, target, "last")
}
