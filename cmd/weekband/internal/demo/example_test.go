package demo_test

import (
	"bufio"
	"fmt"

	"weekband/cmd/weekband/internal/demo"
)

func ExampleFiles() {
	f, err := demo.Files().Open(demo.Recipe)
	if err != nil {
		panic(err)
	}
	defer f.Close()
	lines := bufio.NewScanner(f)
	lines.Scan()
	fmt.Println(lines.Text())
	// Output: # The recipe of the demo. The territory and all its numbers are invented.
}
