package abreast

import (
	"context"
	"errors"
	"runtime"
	"sync"
)

// AtOnce does jobs at the same time and returns their errors in order.
func AtOnce(jobs ...func() error) error {
	errs := make([]error, len(jobs))
	var wg sync.WaitGroup
	for i, job := range jobs {
		wg.Go(func() { errs[i] = job() })
	}
	wg.Wait()
	return errors.Join(errs...)
}

// InTurn does n jobs in their order, as many at a time as there are
// processors, and returns their errors in order and that of ctx.
func InTurn(ctx context.Context, n int, job func(i int) error) error {
	errs := make([]error, n)
	next := make(chan int)
	var wg sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wg.Go(func() {
			for i := range next {
				errs[i] = job(i)
			}
		})
	}
	for i := range n {
		if ctx.Err() != nil {
			break
		}
		next <- i
	}
	close(next)
	wg.Wait()
	return errors.Join(append(errs, ctx.Err())...)
}
