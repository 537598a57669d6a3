//go:build race

package render_test

func init() { raced = true }
