//go:build race

package weeks

func init() { raced = true }
