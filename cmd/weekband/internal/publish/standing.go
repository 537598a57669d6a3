package publish

import (
	"fmt"
	"os"
	"path/filepath"
)

// Standing returns the folder of the edition in target for those who only
// read it: target itself, or the hidden folder in which a run that was ended
// while it published has left the previous edition, with a note that says so.
func Standing(target string) (folder, note string) {
	if _, err := os.Stat(target); err == nil {
		return target, ""
	}
	p, err := locate(target)
	if err != nil {
		return target, ""
	}
	hidden := filepath.Join(p.dir, p.hidden(previousWord))
	if info, err := os.Stat(hidden); err != nil || !info.IsDir() {
		return target, ""
	}
	return hidden, fmt.Sprintf("a run that was ended while it published has left the edition of %s hidden in %s; the next build puts it back", target, hidden)
}
