package oracle_test

import (
	"fmt"
	"os"
	"runtime"
	"strings"
	"testing"

	"weekband/grid/oracle"
)

// watched is a test whose end is told to somebody else.
type watched struct {
	testing.TB
	end chan<- string
}

func (w watched) Helper() {}

func (w watched) Skipf(format string, args ...any) {
	w.end <- "skipped: " + fmt.Sprintf(format, args...)
	runtime.Goexit()
}

func (w watched) Fatalf(format string, args ...any) {
	w.end <- "failed: " + fmt.Sprintf(format, args...)
	runtime.Goexit()
}

// endOf returns how a test ends.
func endOf(test func(t testing.TB)) string {
	end := make(chan string, 1)
	go func() {
		test(watched{end: end})
		end <- "passed"
	}()
	return <-end
}

func ExampleNeed() {
	os.Unsetenv("WEEKBAND_ORACLES") // as on a developer's machine
	fmt.Println(endOf(func(t testing.TB) { oracle.Need(t, "a-tool-nobody-has") }))
	fmt.Println(endOf(func(t testing.TB) { oracle.Need(t, "go") }))
	// Output:
	// skipped: a-tool-nobody-has is not installed
	// passed
}

// In the gate nothing may be left out for want of a tool.
func TestRequired(t *testing.T) {
	t.Setenv("WEEKBAND_ORACLES", "required")
	for what, test := range map[string]func(t testing.TB){
		"a tool":          func(t testing.TB) { oracle.Need(t, "go", "a-tool-nobody-has") },
		"a Python module": func(t testing.TB) { oracle.Python(t, "a_module_nobody_has") },
	} {
		if end := endOf(test); !strings.HasPrefix(end, "failed: ") || !strings.Contains(end, "required") {
			t.Errorf("without %s a test %s", what, end)
		}
	}
}

func TestRun(t *testing.T) {
	if end := endOf(func(t testing.TB) { oracle.Run(t, nil, "go", "no-such-command") }); !strings.HasPrefix(end, "failed: go") || !strings.Contains(end, "unknown command") {
		t.Errorf("a tool that fails: the test %s", end)
	}
	if out := oracle.Run(t, nil, "go", "env", "GOOS"); string(out) != runtime.GOOS+"\n" {
		t.Errorf("go env GOOS wrote %q", out)
	}
}
