package oracle

import (
	"os"
	"strings"
	"testing"
)

// Node runs files of a page's script one after the other within one strict
// function, as a page does, and then a driver, and returns what that printed.
// Without node it skips the test as Need does.
func Node(t testing.TB, stdin []byte, driver string, files ...string) []byte {
	t.Helper()
	Need(t, "node")
	var b strings.Builder
	b.WriteString("\"use strict\";\n(() => {\n")
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		b.Write(text)
	}
	b.WriteString(driver + "\n})();\n")
	return Run(t, stdin, "node", "-e", b.String())
}
