package geotiff_test

import (
	"bytes"
	"fmt"

	"weekband/grid"
	"weekband/grid/source/geotiff"
)

func Example() {
	g, err := grid.New(grid.Box{West: -91, South: 40, East: -89.5, North: 40.5}, 2, 3)
	if err != nil {
		fmt.Println(err)
		return
	}
	var file bytes.Buffer
	err = geotiff.Encode(&file, g, 1, func(_, first, n int, vals []float32, has []bool) error {
		for i := range vals {
			vals[i], has[i] = float32(100+10*first+i), i != 1
		}
		return nil
	}, geotiff.WriteOptions{Names: []string{"crossing day"}, Unit: "day"})
	if err != nil {
		fmt.Println(err)
		return
	}
	f, err := geotiff.Open(bytes.NewReader(file.Bytes()), int64(file.Len()), "day.tif", geotiff.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	vals, has := make([]float32, 3), make([]bool, 3)
	if err := f.Read(0, 0, 1, vals, has); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(f.Info().Names, f.Info().Unit, vals, has)
	// Output: [crossing day] day [100 0 102] [true false true]
}
