//go:build race

package series_test

func init() { raced = true }
