package publish_test

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"weekband/cmd/weekband/internal/publish"
	"weekband/grid/oracle"
)

// A program that publishes all the time is killed 50 times, each a little
// later than before. The target holds a whole edition each time, its name is
// there at every moment, and the next run finds nothing in its way.
func TestKilledAtAnyMoment(t *testing.T) {
	target := filepath.Join(t.TempDir(), "vale")
	again(t, target, "first")
	var missed, looks atomic.Int64
	ended := make(chan struct{})
	watched := make(chan struct{})
	go func() {
		defer close(watched)
		for {
			select {
			case <-ended:
				return
			default:
			}
			if _, err := os.Stat(filepath.Join(target, publish.Marker)); errors.Is(err, fs.ErrNotExist) {
				missed.Add(1)
			}
			looks.Add(1)
		}
	}()
	editions := map[string]bool{}
	for i := range 50 {
		cmd := child(t, "forever", target)
		await(t, cmd, "begun")
		time.Sleep(time.Duration(i) * 1500 * time.Microsecond)
		if err := cmd.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		cmd.Wait()
		editions[edition(t, target)] = true
	}
	close(ended)
	<-watched
	if runtime.GOOS == "linux" && missed.Load() > 0 {
		t.Errorf("of %d looks %d found no edition", looks.Load(), missed.Load())
	}
	if len(editions) < 2 {
		t.Error("no child lived long enough to publish")
	}
	again(t, target, "last")
	t.Logf("%d looks, %d editions", looks.Load(), len(editions))
}

// The kernel kills the program as it enters a system call: strace, a general
// tool, arranges it.
func TestKilledWithinAStep(t *testing.T) {
	oracle.Need(t, "strace")
	for _, c := range []struct {
		name   string
		inject []string
		kept   bool // the previous edition, rather than the new one
		hidden bool // until the next run
	}{
		{"making the fresh folder", []string{"mkdirat:signal=KILL:when=1"}, true, false},
		{"writing", []string{"mkdirat:signal=KILL:when=4"}, true, false},
		{"on the way to the disk", []string{"fsync:signal=KILL"}, true, false},
		{"exchanging names", []string{"renameat2:signal=KILL"}, true, false},
		{"removing the previous edition", []string{"unlinkat:signal=KILL:when=9"}, false, false},
		{"first of two steps", []string{"renameat2:error=EINVAL", "renameat:signal=KILL:when=1"}, true, false},
		{"second of two steps", []string{"renameat2:error=EINVAL", "renameat:signal=KILL:when=2"}, true, true},
		{"removing after two steps", []string{"renameat2:error=ENOSYS", "unlinkat:signal=KILL:when=9"}, false, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			target := filepath.Join(t.TempDir(), "vale")
			text, first := faulty(t, target, c.inject)
			folder, note := publish.Standing(target)
			if (folder != target) != c.hidden || (note != "") != c.hidden {
				t.Errorf("the edition is in %s; %s", folder, note)
			}
			if which := edition(t, folder); (which == first) != c.kept {
				t.Errorf("it stands %s; the child said %s", which, text)
			}
			notes := strings.Join(again(t, target, "last"), "\n")
			if strings.Contains(notes, "hidden") != c.hidden {
				t.Errorf("the next run notes %q", notes)
			}
		})
	}
}

// faulty publishes a first edition and runs a child with faults in its system
// calls until that fails, and returns what it said and which edition stood
// before. strace counts calls by thread, and a goroutine may change threads:
// then nothing happens, and it has to be tried again.
func faulty(t *testing.T, target string, inject []string) (said, first string) {
	t.Helper()
	again(t, target, "first")
	for range 5 {
		first = edition(t, target)
		text, err := child(t, "once", target, traced(inject)...).CombinedOutput()
		if err != nil {
			return string(text), first
		}
	}
	t.Fatalf("the child never met with %q", inject)
	return "", ""
}

// traced is the command that runs a program with faults in its system calls.
func traced(inject []string) []string {
	args := []string{"strace", "-f", "-qq", "-o", os.DevNull}
	for _, fault := range inject {
		args = append(args, "-e", "inject="+fault)
	}
	return args
}

// Faults that system calls return, and what is said about them.
func TestFaultsOfTheDisk(t *testing.T) {
	oracle.Need(t, "strace")
	for _, c := range []struct {
		name   string
		inject []string
		want   string
	}{
		{"the disk fails", []string{"fsync:error=EIO"}, "the disk does not work as it should"},
		{"room runs out on the way to the disk", []string{"fsync:error=ENOSPC"}, "no room is left there"},
		{"the quota is used up", []string{"mkdirat:error=EDQUOT:when=3"}, "your share of that disk is used up"},
		{"names cannot be exchanged", []string{"renameat2:error=EPERM"}, "you may not write there"},
		{"the second of two steps", []string{"renameat2:error=EINVAL", "renameat:error=EBUSY:when=2"}, "another program holds it"},
	} {
		t.Run(c.name, func(t *testing.T) {
			target := filepath.Join(t.TempDir(), "vale")
			text, first := faulty(t, target, c.inject)
			if !strings.Contains(text, c.want) || !strings.Contains(text, "; what stood in "+target+" before stands still") {
				t.Errorf("said %q, want %q", text, c.want)
			}
			if which := edition(t, target); which != first {
				t.Errorf("it stands %s", which)
			}
			alone(t, target)
			again(t, target, "last")
		})
	}
}

// What a file system or a kernel cannot do, and publishing does without.
func TestSystemsThatLackSomething(t *testing.T) {
	oracle.Need(t, "strace")
	for _, c := range []struct{ name, inject, note string }{
		{"names are not exchanged here", "renameat2:error=EINVAL", ""},
		{"names are never exchanged", "renameat2:error=ENOSYS", ""},
		{"no locks are kept", "flock:error=ENOLCK", "no locks are kept in "},
		{"the disk cannot be asked", "fsync:error=EINVAL", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			target := filepath.Join(t.TempDir(), "vale")
			again(t, target, "first")
			text, err := child(t, "once", target, traced([]string{c.inject})...).CombinedOutput()
			if err != nil || !strings.Contains(string(text), c.note) {
				t.Errorf("%v, said %q, want %q", err, text, c.note)
			}
			if which := edition(t, target); which == "first" {
				t.Errorf("it stands %s", which)
			}
			alone(t, target)
		})
	}
}
