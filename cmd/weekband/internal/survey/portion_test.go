package survey

import (
	"testing"
)

// Shares are all rows, each once, and as even as whole rows allow.
func TestSharesOfRows(t *testing.T) {
	for rows := 1; rows < 60; rows += 7 {
		for of := 1; of < 20; of++ {
			next := 0
			for i := range of {
				s, err := Portion{share: i, of: of}.within(rows)
				if err != nil || s.From != next || s.Rows() < rows/of || s.Rows() > rows/of+1 {
					t.Fatalf("share %d of %d of %d rows is %v, %v", i, of, rows, s, err)
				}
				next = s.To
			}
			if next != rows {
				t.Fatalf("%d shares end at row %d of %d", of, next, rows)
			}
		}
	}
}
