package survey

import (
	"math"
	"runtime/debug"

	"weekband/cmd/weekband/internal/inputs"
)

// frugalHeap is the size in bytes from which the heap is swept more often where
// cells go by as a stream, instead of letting it grow to twice what is in use.
const frugalHeap = 800 << 20

// beFrugal asks for that until the inputs are closed, unless the user's GOMEMLIMIT
// asks for something else.
func beFrugal(in *inputs.Set) {
	if debug.SetMemoryLimit(-1) == math.MaxInt64 {
		debug.SetMemoryLimit(frugalHeap)
		in.CloseLater(spender{})
	}
}

// spender ends frugality.
type spender struct{}

// Close implements io.Closer.
func (spender) Close() error {
	debug.SetMemoryLimit(math.MaxInt64)
	return nil
}
