package tracing

import (
	"weekband/grid/crossing"
)

// ReasonAreas is the area of the cells with each reason, km².
type ReasonAreas [len(crossing.Reasons)]float64

// Land is the area of all of them.
func (a ReasonAreas) Land() float64 {
	sum := 0.0
	for _, km2 := range a {
		sum += km2
	}
	return sum
}
