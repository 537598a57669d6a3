package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"weekband/cmd/weekband/internal/manual"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid/oracle"
)

// inPath makes a folder with the program in it as weekband, and returns an
// environment that finds it there, with a home of its own.
func inPath(t *testing.T) []string {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	if err := os.Symlink(self, filepath.Join(dir, "weekband")); err != nil {
		t.Skip(err) // a system without links
	}
	return append(os.Environ(), asProgram+"=1", "PATH="+dir+string(os.PathListSeparator)+os.Getenv("PATH"), "HOME="+dir, "TERM=xterm", "PS1=> ")
}

// Every line that a page shows as an example works when it is typed into a
// shell, where weekband demo and weekband demo --unpack merrow have been.
func TestExamplesOfTheManualWork(t *testing.T) {
	demo := demoEdition(t)
	oracle.Need(t, "bash")
	env, dir := inPath(t), t.TempDir()
	if err := os.CopyFS(filepath.Join(dir, "out", "demo"), os.DirFS(demo)); err != nil {
		t.Fatal(err)
	}
	shell := func(text string) {
		t.Helper()
		cmd := exec.CommandContext(t.Context(), "bash", "-e", "-c", text)
		cmd.Dir, cmd.Env = dir, env
		if out, err := cmd.CombinedOutput(); err != nil {
			t.Errorf("%s\n%v\n%s", text, err, out)
		}
	}
	shell("weekband demo --unpack merrow")
	if err := os.WriteFile(filepath.Join(dir, "merrow", "vale.yaml"), []byte(recipe.Example), 0o644); err != nil {
		t.Fatal(err)
	}
	app := model(t)
	done := map[string]bool{"weekband demo": true, "weekband demo --unpack merrow": true}
	order := append(slices.DeleteFunc(pageNames(t), func(n string) bool { return n == "compare" }), "compare") // it needs editions of others
	for _, name := range order {
		page := manual.Overview(app)
		if name != "" {
			page = manual.Find(app, name)
		}
		for _, example := range page.Examples() {
			var lines []string
			for line := range strings.SplitSeq(strings.ReplaceAll(example, "\\\n", ""), "\n") {
				switch {
				case strings.HasPrefix(line, "weekband preview"):
					tryPreview(t, dir, env, line)
				case !done[line]:
					lines = append(lines, line)
				}
				done[line] = done[line] || name != "merge" // its parts are others
			}
			if lines != nil {
				shell(strings.Join(lines, "\n"))
			}
		}
		parts, err := filepath.Glob(filepath.Join(dir, "out", "*.part"))
		if err != nil {
			t.Fatal(err)
		}
		for _, part := range parts {
			os.Remove(part)
		}
	}
	if len(done) < 30 {
		t.Errorf("the manual has %d lines of examples", len(done))
	}
}

// tryPreview runs an example that only an interrupt ends.
func tryPreview(t *testing.T, dir string, env []string, line string) {
	t.Helper()
	cmd := exec.CommandContext(t.Context(), "bash", "-c", "exec "+line)
	cmd.Dir, cmd.Env = dir, env
	var log bytes.Buffer
	cmd.Stderr = &log
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	text := make([]byte, 200)
	n, _ := out.Read(text)
	time.AfterFunc(10*time.Second, func() { cmd.Process.Kill() })
	err = cmd.Process.Signal(os.Interrupt)
	if ended := cmd.Wait(); err != nil || ended != nil || !strings.HasPrefix(string(text[:n]), "http://") {
		if strings.Contains(log.String(), "port") && strings.Contains(line, "--port") {
			t.Skipf("the port of the example is taken: %s", &log)
		}
		t.Errorf("%s: %v, %v, printed %q, said %q", line, err, ended, text[:n], &log)
	}
}
