package progress_test

import (
	"os"

	"weekband/cmd/weekband/internal/progress"
)

// Through a pipe every stage is a line, and so is what came of them.
func ExampleNew() {
	say := progress.New(os.Stdout, progress.Lines, false)
	defer say.Close()
	say.Stage("reading what %s names", "vale.yaml")
	say.Stage("drawing")
	say.Work(2, "pictures")
	say.Did(2)
	say.Note("no map of the expected error")
	say.Done("done: open %s", "out/vale/index.html")
	// Output:
	// reading what vale.yaml names
	// drawing
	//   note: no map of the expected error
	// done: open out/vale/index.html
}
