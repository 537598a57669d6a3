package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"weekband/grid/oracle"
)

// In real shells, on a terminal: what is typed with Tab becomes a command line
// that runs. Every shell has commands, options, files by their endings, ids of
// windows and names of places with spaces in them.
func TestShellsComplete(t *testing.T) {
	demo := demoEdition(t)
	dir := t.TempDir()
	if err := os.CopyFS(filepath.Join(dir, "edition", "data"), os.DirFS(filepath.Join(demo, "data"))); err != nil {
		t.Fatal(err) // what lookups read
	}
	if err := os.Mkdir(filepath.Join(dir, "data"), 0o755); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"places.csv", "places.txt"} {
		if err := os.WriteFile(filepath.Join(dir, "data", name), []byte("place,lat,lon,date,soil,depth\nVennaford,37.392,-48.33,2027-03-25,45 F,4 in\n"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	steps := []struct{ typed, want string }{
		{"weekband bui\t-h", "weekband build RECIPE"},
		{"weekband lookup edi\t lowen\t--js\t", `"place": "Lowen Strand"`},
		{"weekband lookup edition \"Lowen S\t --json", `"place": "Lowen Strand"`},
		{"weekband verify edi\t dat\tpl\t--window win\t--json", `"window": "winter-annuals"`},
		{"weekband help recipe soil.d\t", "Depth under short grass."},
	}
	for shell, s := range map[string]struct {
		args  []string
		begin string
	}{
		"bash": {[]string{"--norc", "-i"}, "source <(weekband completion bash)"},
		"zsh":  {[]string{"-f", "-i"}, "autoload -U compinit; compinit -u -D; source <(weekband completion zsh)"},
		"fish": {[]string{"--no-config", "-i"}, "weekband completion fish | source"},
	} {
		t.Run(shell, func(t *testing.T) {
			oracle.Need(t, shell)
			cmd := exec.CommandContext(t.Context(), shell, s.args...)
			cmd.Dir, cmd.Env = dir, inPath(t)
			limit := time.AfterFunc(time.Minute, func() { cmd.Process.Kill() })
			defer limit.Stop()
			next, from := -1, 0 // the step whose answer is awaited, in what was sent since
			sent, _ := onTerminal(t, 200, cmd, func(master *os.File, sent string) bool {
				answered := next >= 0 && next < len(steps) && strings.Contains(onScreen(sent[from:]), steps[next].want)
				if next < 0 && strings.Contains(sent, "ready") || answered {
					next++
					from = len(sent)
					line := "exit"
					if next < len(steps) {
						line = steps[next].typed
					}
					master.WriteString(line + "\n")
				} else if next < 0 && from == 0 && sent != "" {
					from = len(sent)
					master.WriteString(s.begin + "; echo rea''dy\n")
				}
				return next == len(steps)
			})
			if next < len(steps) {
				t.Errorf("%q did not answer %q:\n%s", steps[max(next, 0)].typed, steps[max(next, 0)].want, onScreen(sent))
			}
		})
	}
}

// controls are what shells send to a terminal besides letters.
var controls = regexp.MustCompile(`\x1b\[[0-9;?]*[a-zA-Z]|\x1b\][^\x07]*\x07|\x1b[()=>].?|[\r\x07]`)

// onScreen is what stands on a terminal, roughly.
func onScreen(sent string) string { return controls.ReplaceAllString(sent, "") }
