package phrase

import "fmt"

// Percent writes a share, 0 to 1, in whole percents, as commands print it.
func Percent(share float64) string { return fmt.Sprintf("%.0f %%", 100*share) }
