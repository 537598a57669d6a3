package publish_test

import (
	"path/filepath"
	"strconv"
	"testing"

	"weekband/cmd/weekband/internal/publish"
)

// An edition of 25,000 files of 20 kB, as a country has with a page for every
// region: what it takes to see to it that they are on the disk, and to
// exchange the names. The previous edition is small.
func BenchmarkCommit(b *testing.B) {
	text := make([]byte, 20_000)
	for b.Loop() {
		b.StopTimer()
		target := filepath.Join(b.TempDir(), "vale")
		for _, count := range []int{1, 25_000} {
			s, err := publish.Begin(target)
			if err != nil {
				b.Fatal(err)
			}
			if err := s.Root().WriteFile(publish.Marker, marker("first"), 0o644); err != nil {
				b.Fatal(err)
			}
			for i := range count {
				name := filepath.Join(strconv.Itoa(i%50), strconv.Itoa(i))
				if err := s.Root().MkdirAll(filepath.Dir(name), 0o755); err != nil {
					b.Fatal(err)
				}
				if err := s.Root().WriteFile(name, text, 0o644); err != nil {
					b.Fatal(err)
				}
			}
			if count > 1 {
				b.StartTimer()
			}
			if err := s.Commit(b.Context()); err != nil {
				b.Fatal(err)
			}
		}
	}
}
