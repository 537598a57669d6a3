package render

import "weekband/grid/abreast"

// eachRow runs do for every row, rows spread over all processors.
func eachRow(rows int, do func(row int)) {
	const strip = 16
	abreast.Each((rows+strip-1)/strip, func(i int) {
		for row := i * strip; row < min((i+1)*strip, rows); row++ {
			do(row)
		}
	})
}
