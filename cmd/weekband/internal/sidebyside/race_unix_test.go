//go:build unix && race

package sidebyside

func init() { raced = true }
