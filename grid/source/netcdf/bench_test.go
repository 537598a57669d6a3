package netcdf

import "testing"

func BenchmarkRead(b *testing.B) {
	for _, t := range []typ{typFloat, typShort, typDouble} {
		b.Run(t.String(), func(b *testing.B) {
			const rows, cols = 400, 1000
			m := small(2, t)
			m.dims[0].length, m.dims[1].length, m.dims[2].length = 1, rows, cols
			m.vars[2].data = m.vars[2].data[:1]
			m.vars[0].data, m.vars[1].data, m.vars[3].data = nil, nil, nil
			if t == typShort {
				m.vars[3].attrs = append(m.vars[3].attrs, numAttr("scale_factor", typDouble, 0.01), numAttr("_FillValue", typShort, -9999))
			}
			for i := range rows {
				m.vars[0].data = append(m.vars[0].data, 50-0.01*float64(i))
			}
			for i := range cols {
				m.vars[1].data = append(m.vars[1].data, -120+0.01*float64(i))
			}
			for i := range rows * cols {
				m.vars[3].data = append(m.vars[3].data, float64(i*7919%3000))
			}
			f, err := open(m.build(), "")
			if err != nil {
				b.Fatal(err)
			}
			vals, has := make([]float32, 20*cols), make([]bool, 20*cols)
			b.SetBytes(rows * cols * t.size())
			for b.Loop() {
				for first := 0; first < rows; first += 20 {
					if err := f.Read(0, first, 20, vals, has); err != nil {
						b.Fatal(err)
					}
				}
			}
			b.ReportMetric(float64(b.N)*rows*cols/b.Elapsed().Seconds()/1e6, "Mcells/s")
		})
	}
}
