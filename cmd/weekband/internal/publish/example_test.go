package publish_test

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"weekband/cmd/weekband/internal/publish"
)

// An edition takes the place of the one before at the very end: a run that ends with
// an error leaves that as it was.
func ExampleBegin() {
	dir, err := os.MkdirTemp("", "publish-")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.RemoveAll(dir)
	out := filepath.Join(dir, "vale")
	build := func(title string, trouble error) (err error) {
		staging, err := publish.Begin(out)
		if err != nil {
			return err
		}
		defer func() { err = staging.End(err) }()
		manifest := fmt.Sprintf(`{"program": %q, "title": %q}`, publish.Program, title)
		if err := staging.Root().WriteFile(publish.Marker, []byte(manifest), 0o644); err != nil {
			return err
		}
		if trouble != nil {
			return trouble
		}
		return staging.Commit(context.Background())
	}
	fmt.Println(build("first", nil))
	fmt.Println(build("second", errors.New("regions: no such file")))
	text, err := os.ReadFile(filepath.Join(out, publish.Marker))
	fmt.Println(string(text), err)
	// Output:
	// <nil>
	// regions: no such file
	// {"program": "weekband", "title": "first"} <nil>
}
