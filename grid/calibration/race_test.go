//go:build race

package calibration

func init() { raced = true }
