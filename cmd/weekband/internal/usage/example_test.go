package usage_test

import (
	"errors"
	"fmt"

	"weekband/cmd/weekband/internal/usage"
)

// A command refuses an argument, and the program tells that from broken files.
func ExampleErrorf() {
	err := fmt.Errorf("preview: %w", usage.Errorf("port %d: want 1 to 65535", 70000))
	_, wrong := errors.AsType[*usage.Error](err)
	fmt.Println(err, wrong)
	// Output: preview: port 70000: want 1 to 65535 true
}
