//go:build race

package worth_test

func init() { raced = true }
