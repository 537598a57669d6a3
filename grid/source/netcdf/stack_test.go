package netcdf

import (
	"fmt"
	"strings"
	"testing"
)

// bands is small with a variable for every layer, as general converters
// write; each has a fill value of its own.
func bands(count int) made {
	m := small(1, typFloat)
	all := m.vars[3]
	m.vars = m.vars[:3]
	for i := range count {
		m.vars = append(m.vars, madeVar{
			name: fmt.Sprintf("Band%d", i+1), dims: []int{1, 2}, typ: typFloat,
			attrs: []madeAttr{numAttr("_FillValue", typFloat, float64(100*i))}, data: all.data[35*i : 35*i+35],
		})
	}
	return m
}

func TestTwelveVariablesAreTwelveLayers(t *testing.T) {
	whole, err := open(small(1, typFloat).build(), "")
	if err != nil {
		t.Fatal(err)
	}
	stack, err := open(bands(12).build(), "")
	if err != nil {
		t.Fatal(err)
	}
	if stack.Count() != 12 {
		t.Fatalf("%d layers", stack.Count())
	}
	for layer := range 12 {
		a, b := values(t, whole, layer), values(t, stack, layer)
		for i := range a {
			if missing := i == 0; missing != (b[i] != b[i]) || !missing && a[i] != b[i] {
				t.Fatalf("layer %d, cell %d: %v, want %v", layer, i, b[i], a[i])
			}
		}
	}
	one, err := open(bands(12).build(), "Band3")
	if err != nil || one.Count() != 1 {
		t.Errorf("one of them by name: %v", err)
	}
}

func TestOtherNumbersAreAmbiguous(t *testing.T) {
	_, err := open(bands(11).build(), "")
	if err == nil || !strings.Contains(err.Error(), "several variables") {
		t.Errorf("eleven variables: %v", err)
	}
	mixed := bands(12)
	mixed.vars[5].attrs = append(mixed.vars[5].attrs, textAttr("units", "K"))
	if _, err = open(mixed.build(), ""); err == nil {
		t.Error("variables in different units were taken for layers")
	}
}
