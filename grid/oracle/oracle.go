package oracle

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// Need skips the test when one of the tools is not installed.
func Need(t testing.TB, tools ...string) {
	t.Helper()
	for _, tool := range tools {
		if _, err := exec.LookPath(tool); err == nil {
			continue
		}
		if os.Getenv("WEEKBAND_ORACLES") == "required" {
			t.Fatalf("%s is not installed, and WEEKBAND_ORACLES=required", tool)
		}
		t.Skipf("%s is not installed", tool)
	}
}

// Run runs a tool with the given standard input and returns its standard
// output. It fails the test when the tool does.
func Run(t testing.TB, stdin []byte, tool string, args ...string) []byte {
	t.Helper()
	Need(t, tool)
	cmd := exec.Command(tool, args...)
	cmd.Stdin = bytes.NewReader(stdin)
	var out, complaint bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &complaint
	if err := cmd.Run(); err != nil {
		t.Fatalf("%s %q: %v\n%s", tool, args, err, &complaint)
	}
	return out.Bytes()
}

// Numpy runs a Python script with the first interpreter that has numpy, and
// returns what it printed. Without one it skips the test as Need does.
func Numpy(t testing.TB, stdin []byte, script string, args ...string) []byte {
	t.Helper()
	return Run(t, stdin, Python(t, "numpy"), append([]string{script}, args...)...)
}

// Python returns the first interpreter that has the modules. Without one it
// skips the test as Need does.
func Python(t testing.TB, modules ...string) string {
	t.Helper()
	for _, python := range []string{"python3", "/usr/bin/python3"} {
		if exec.Command(python, "-c", "import "+strings.Join(modules, ", ")).Run() == nil {
			return python
		}
	}
	Need(t, "python3 with "+strings.Join(modules, " and "))
	return ""
}

// NodeFile returns the path of a file of a globally installed npm package, such
// as "axe-core/axe.min.js". Without it it skips the test as Need does.
func NodeFile(t testing.TB, name string) string {
	t.Helper()
	Need(t, "npm")
	path := filepath.Join(string(bytes.TrimSpace(Run(t, nil, "npm", "root", "--global"))), filepath.FromSlash(name))
	if _, err := os.Stat(path); err != nil {
		Need(t, "the npm package "+name)
	}
	return path
}

// Data returns the path of a file of the real data that lies beside the
// repository, and skips the test when it is not there.
func Data(t testing.TB, name string) string {
	t.Helper()
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			break
		}
		if parent := filepath.Dir(dir); parent != dir {
			dir = parent
			continue
		}
		t.Fatal("no go.mod above the working directory")
	}
	path := filepath.Join(dir, "..", "shared", "data", filepath.FromSlash(name))
	if _, err := os.Stat(path); err != nil {
		t.Skipf("real data not here: %v", err)
	}
	return path
}
