package preview_test

import (
	"fmt"
	"net/http/httptest"
	"os"
	"path/filepath"

	"weekband/cmd/weekband/internal/preview"
	"weekband/cmd/weekband/internal/skerry"
)

// A browser of this machine asks for the first page of an edition. Under another
// name than this machine's own it is refused.
func ExampleNewHandler() {
	edition, _, remove := skerry.Edition()
	defer remove()
	page := []byte("<!DOCTYPE html><title>Skerry</title>")
	if err := os.WriteFile(filepath.Join(edition, "index.html"), page, 0o644); err != nil {
		fmt.Println(err)
		return
	}
	files, err := preview.NewHandler(edition)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, host := range []string{"localhost:8080", "elsewhere.example"} {
		ask := httptest.NewRequest("GET", "/", nil)
		ask.Host = host
		answer := httptest.NewRecorder()
		files.ServeHTTP(answer, ask)
		fmt.Println(host, answer.Code, answer.Header().Get("Content-Type"))
	}
	// Output:
	// localhost:8080 200 text/html; charset=utf-8
	// elsewhere.example 421 text/plain; charset=utf-8
}
