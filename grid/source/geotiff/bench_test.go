package geotiff

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"testing"
)

// smooth is a smooth field with some noise, as temperatures are.
func smooth() plan {
	p := small(float32s)
	p.rows, p.cols, p.bands, p.tileW, p.blockH = 512, 1024, 1, 256, 256
	p.value = func(_, row, col int) float64 {
		noise := float64((row*7919+col*104729)%101) / 2000
		return 15 - 10*math.Cos(float64(row)/150)*math.Sin(float64(col)/200) + noise
	}
	return p
}

func BenchmarkRead(b *testing.B) {
	for _, c := range []struct {
		comp, predictor uint16
		rows            int // read at a time
	}{{compNone, 1, 1}, {compDeflate, 1, 1}, {compDeflate, 3, 1}, {compDeflate, 3, 64}, {compZstd, 3, 1}, {compLZW, 2, 1}, {compPackBits, 1, 1}} {
		b.Run(fmt.Sprintf("compression=%d/predictor=%d/rows=%d", c.comp, c.predictor, c.rows), func(b *testing.B) {
			p := smooth()
			p.comp, p.predictor = c.comp, c.predictor
			data := p.build()
			vals, has := make([]float32, c.rows*p.cols), make([]bool, c.rows*p.cols)
			b.SetBytes(int64(4 * p.rows * p.cols))
			b.ReportAllocs()
			for b.Loop() {
				f, err := Open(bytes.NewReader(data), int64(len(data)), "x", Options{})
				if err != nil {
					b.Fatal(err)
				}
				for row := 0; row < p.rows; row += c.rows {
					if err := f.Read(0, row, c.rows, vals, has); err != nil {
						b.Fatal(err)
					}
				}
			}
			b.ReportMetric(float64(b.N*p.rows*p.cols)/b.Elapsed().Seconds()/1e6, "Mcells/s")
			b.ReportMetric(float64(4*p.rows*p.cols)/float64(len(data)), "ratio")
		})
	}
}

func BenchmarkWrite(b *testing.B) {
	p := smooth()
	g := testGrid(b, 128, 128)
	for name, opts := range map[string]WriteOptions{"float32": {}, "int16": {Store: Int16, Scale: 0.01}} {
		b.Run(name, func(b *testing.B) {
			vals, has := make([]float32, 128*128), make([]bool, 128*128)
			for i := range vals {
				vals[i], has[i] = float32(p.value(0, i/128, i%128)), true
			}
			b.SetBytes(int64(4 * len(vals)))
			for b.Loop() {
				w, err := NewWriter(io.Discard, g, 1, opts)
				if err != nil {
					b.Fatal(err)
				}
				if err := w.WriteRows(0, vals, has); err != nil {
					b.Fatal(err)
				}
				if err := w.Close(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
