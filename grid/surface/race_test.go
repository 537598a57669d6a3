//go:build race

package surface_test

func init() { raced = true }
