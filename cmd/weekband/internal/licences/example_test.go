package licences_test

import (
	"fmt"
	"strings"

	"weekband/cmd/weekband/internal/licences"
)

// Under which licence the fonts of pictures are.
func ExampleText() {
	for line := range strings.Lines(licences.Text()) {
		if strings.Contains(line, "liberation") {
			fmt.Println(strings.Join(strings.Fields(line), " "))
			break
		}
	}
	// Output: github.com/go-fonts/liberation v0.3.3 BSD-3-Clause, OFL-1.1
}
