//go:build race

package agreement_test

func init() { raced = true }
