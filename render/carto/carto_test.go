package carto_test

import (
	"fmt"
	"math"
	"testing"

	"weekband/grid"
	"weekband/render/carto"
	"weekband/render/plane"
)

func Example() {
	p := carto.Choose(grid.Box{West: -125, South: 24, East: -66, North: 50})
	fmt.Println(p)
	at := p.Forward(grid.LonLat{Lon: -95.5, Lat: 40})
	fmt.Printf("%.0f m east, %.0f km north\n", at.X, at.Y/1000)
	// Output:
	// Albers equal-area conic, parallels 28.5° N and 45.5° N
	// 0 m east, 337 km north
}

// clarke1866 as in Snyder 1987's worked examples, e² = 0.00676866.
var clarke1866 = carto.Ellipsoid{SemiMajor: 6378206.4, Flattening: 1 - math.Sqrt(1-0.00676866)}

func albers(t testing.TB, e carto.Ellipsoid, lon, lat, first, second float64) carto.Projection {
	return must(t)(carto.NewAlbers(e, grid.LonLat{Lon: lon, Lat: lat}, carto.Parallels{First: first, Second: second}))
}

func lambert(t testing.TB, e carto.Ellipsoid, lon, lat, first, second float64) carto.Projection {
	return must(t)(carto.NewLambert(e, grid.LonLat{Lon: lon, Lat: lat}, carto.Parallels{First: first, Second: second}))
}

func transverse(t testing.TB, e carto.Ellipsoid, lon, lat, k0 float64) carto.Projection {
	return must(t)(carto.NewTransverseMercator(e, grid.LonLat{Lon: lon, Lat: lat}, k0))
}

func azimuthal(t testing.TB, e carto.Ellipsoid, lon, lat float64) carto.Projection {
	return must(t)(carto.NewAzimuthal(e, grid.LonLat{Lon: lon, Lat: lat}))
}

func cylindrical(t testing.TB, e carto.Ellipsoid, lon, parallel float64) carto.Projection {
	return must(t)(carto.NewCylindrical(e, lon, parallel))
}

func must(t testing.TB) func(carto.Projection, error) carto.Projection {
	t.Helper()
	return func(p carto.Projection, err error) carto.Projection {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
}

// The published coordinates. Snyder: Map Projections: A Working Manual, USGS
// Prof. Paper 1395, 1987, numerical examples of ch. 14 (Albers), 15 (Lambert
// conformal) and 8 (transverse Mercator). PROJ: the test file builtins.gie of
// the PROJ library, tolerance 0.1 mm. Contiguous US: computed independently
// from Snyder's formulas.
func TestPublishedCoordinates(t *testing.T) {
	unit := carto.Sphere(1)
	us := albers(t, carto.GRS80, -96, 23, 29.5, 45.5)
	for _, c := range []struct {
		name     string
		p        carto.Projection
		lon, lat float64
		x, y     float64
		tol      float64 // in the unit of x and y
	}{
		{"Snyder, Albers, sphere", albers(t, unit, -96, 23, 29.5, 45.5), -75, 35, 0.2952720, 0.2416774, 6e-8},
		{"Snyder, Albers, Clarke 1866", albers(t, clarke1866, -96, 23, 29.5, 45.5), -75, 35, 1885472.7, 1535925.0, 0.05},
		{"Albers, Clarke 1866, computed", albers(t, clarke1866, -96, 23, 29.5, 45.5), -75, 35, 1885472.7265, 1535925.0033, 1e-4},
		{"Snyder, Lambert, sphere", lambert(t, unit, -96, 23, 33, 45), -75, 35, 0.2966785, 0.2462112, 6e-8},
		{"Snyder, Lambert, Clarke 1866", lambert(t, clarke1866, -96, 23, 33, 45), -75, 35, 1894410.9, 1564649.5, 0.05},
		{"Lambert, Clarke 1866, computed", lambert(t, clarke1866, -96, 23, 33, 45), -75, 35, 1894410.8990, 1564649.4768, 1e-4},
		{"Snyder, transverse Mercator, sphere", transverse(t, unit, -75, 0, 1), -73.5, 40.5, 0.0199077, 0.7070276, 6e-8},
		{"Snyder, transverse Mercator, Clarke 1866", transverse(t, clarke1866, -75, 0, 0.9996), -73.5, 40.5, 127106.5, 4484124.4, 0.05},
		{"transverse Mercator, Clarke 1866, computed", transverse(t, clarke1866, -75, 0, 0.9996), -73.5, 40.5, 127106.4674, 4484124.4276, 2e-3},
		{"PROJ aea", albers(t, carto.GRS80, 0, 0, 0, 2), 2, 1, 222571.608757106, 110653.326743030, 1e-4},
		{"PROJ aea, south", albers(t, carto.GRS80, 0, 0, 0, 2), 2, -1, 222706.306508391, -110484.267144400, 1e-4},
		{"PROJ aea, far", albers(t, carto.GRS80, 0, 0, 0, 2), 150, 50, 16468399.3582, 5275043.9815, 1e-4},
		{"PROJ aea, sphere", albers(t, carto.Sphere(6400000), 0, 0, 0, 2), 2, 1, 223334.085170885, 111780.431884472, 1e-4},
		{"PROJ lcc", lambert(t, carto.GRS80, 0, 0, 0.5, 2), 2, 1, 222588.439735968, 110660.533870800, 1e-4},
		{"PROJ lcc, sphere", lambert(t, carto.Sphere(6370997), 0, 0, 30, 40), 1, 2, 129391.909521100, 262101.674176860, 1e-4},
		{"PROJ tmerc", transverse(t, carto.GRS80, 0, 0, 1), 2, 1, 222650.796797586, 110642.229411933, 1e-4},
		{"PROJ tmerc, far", transverse(t, carto.GRS80, 0, 0, 1), 44.69, 35.37, 4168136.489446198, 4985511.302287407, 1e-4},
		{"PROJ tmerc, sphere", transverse(t, carto.Sphere(6400000), 0, 0, 1), 2, 1, 223413.466406322, 111769.145040597, 1e-4},
		{"PROJ laea", azimuthal(t, carto.GRS80, 0, 0), 2, 1, 222602.471450095, 110589.827224410, 1e-4},
		{"PROJ laea, oblique sphere", azimuthal(t, unit, 0, 45), 45, 45, 0.5194, 0.1521, 6e-5},
		{"PROJ cea", cylindrical(t, carto.GRS80, 0, 0), 2, 1, 222638.981586547, 110568.812396267, 1e-4},
		{"US, origin", us, -96, 23, 0, 0, 1e-6},
		{"US, New York", us, -74.0060, 40.7128, 1826303.969, 2179112.027, 1e-3},
		{"US, Denver", us, -104.9903, 39.7392, -762409.048, 1893843.600, 1e-3},
		{"US, Seattle", us, -122.3321, 47.6062, -1967991.169, 3009111.139, 1e-3},
		{"US, Miami", us, -80.1918, 25.7617, 1594077.430, 434469.969, 1e-3},
		{"US, Los Angeles", us, -118.2437, 34.0522, -2019685.067, 1458261.685, 1e-3},
	} {
		got := c.p.Forward(grid.LonLat{Lon: c.lon, Lat: c.lat})
		if math.Abs(got.X-c.x) > c.tol || math.Abs(got.Y-c.y) > c.tol {
			t.Errorf("%s: %g E %g N is at %.10g, %.10g; want %.10g, %.10g", c.name, c.lon, c.lat, got.X, got.Y, c.x, c.y)
		}
	}
}

// every names one projection of each kind and aspect with the region it is
// meant for.
func every(t testing.TB) map[string]struct {
	p   carto.Projection
	box grid.Box
} {
	type entry = struct {
		p   carto.Projection
		box grid.Box
	}
	return map[string]entry{
		"albers north":        {albers(t, carto.WGS84, -96, 23, 29.5, 45.5), grid.Box{West: -170, South: -40, East: -10, North: 89.9}},
		"albers south":        {albers(t, carto.WGS84, 134, -25, -18, -36), grid.Box{West: 60, South: -89, East: 179, North: 30}},
		"albers one parallel": {albers(t, clarke1866, 10, 40, 40, 40), grid.Box{West: -60, South: -10, East: 80, North: 89}},
		"albers sphere":       {albers(t, carto.Sphere(6371007), -96, 23, 29.5, 45.5), grid.Box{West: -170, South: 0, East: -10, North: 80}},
		"lambert north":       {lambert(t, carto.GRS80, -96, 23, 33, 45), grid.Box{West: -170, South: -40, East: -10, North: 89.9}},
		"lambert south":       {lambert(t, carto.WGS84, 134, -25, -18, -36), grid.Box{West: 60, South: -89, East: 179, North: 30}},
		"transverse":          {transverse(t, carto.WGS84, 9, 30, 0.9996), grid.Box{West: -25, South: -85, East: 43, North: 85}},
		"azimuthal oblique":   {azimuthal(t, carto.WGS84, 10, 52), grid.Box{West: -60, South: -20, East: 80, North: 89}},
		"azimuthal south":     {azimuthal(t, carto.WGS84, 25, -30), grid.Box{West: -30, South: -80, East: 80, North: 30}},
		"azimuthal pole":      {azimuthal(t, carto.WGS84, -40, 90), grid.Box{West: -170, South: 20, East: 170, North: 89.9999}},
		"azimuthal equator":   {azimuthal(t, carto.WGS84, 100, 0), grid.Box{West: 30, South: -80, East: 170, North: 80}},
		"cylindrical":         {cylindrical(t, carto.WGS84, 20, 30), grid.Box{West: -150, South: -89, East: 179, North: 89}},
	}
}

// spread returns n positions spread evenly over a box (the additive sequence
// of the golden ratio and its plastic sibling, Roberts 2018).
func spread(box grid.Box, n int) []grid.LonLat {
	out := make([]grid.LonLat, n)
	for i := range out {
		_, u := math.Modf(0.5 + float64(i)*0.7548776662466927)
		_, v := math.Modf(0.5 + float64(i)*0.5698402909980532)
		out[i] = grid.LonLat{Lon: box.West + u*(box.East-box.West), Lat: box.South + v*(box.North-box.South)}
	}
	return out
}

func TestRoundTrip(t *testing.T) {
	for name, e := range every(t) {
		for _, p := range spread(e.box, 2000) {
			back, ok := e.p.Inverse(e.p.Forward(p))
			gap := math.Hypot((back.Lon-p.Lon)*math.Cos(p.Lat*math.Pi/180), back.Lat-p.Lat)
			if !ok || gap > 1e-9 { // degrees: 0.1 mm
				t.Errorf("%s: %v came back as %v (ok %v), off by %g°", name, p, back, ok, gap)
				break
			}
		}
	}
}

// An equal-area projection keeps areas, h·k·cos θ' = 1 in Snyder's terms: the
// determinant of the numerical derivatives over the arcs of the ellipsoid. A
// conformal one has equal scales north and east at right angles.
func TestAreasAndAngles(t *testing.T) {
	e2 := carto.WGS84.Flattening * (2 - carto.WGS84.Flattening)
	for name, e := range every(t) {
		if name == "albers one parallel" || name == "albers sphere" || name == "lambert north" {
			continue // other ellipsoids
		}
		for _, p := range spread(e.box, 500) {
			if math.Abs(p.Lat) > 88 {
				continue
			}
			const d = 1e-4 // degrees
			north := slope(e.p, p, 0, d)
			east := slope(e.p, p, d, 0)
			sin, cos := math.Sincos(p.Lat * math.Pi / 180)
			w := math.Sqrt(1 - e2*sin*sin)
			arc := 2 * d * math.Pi / 180 * carto.WGS84.SemiMajor
			mer, par := arc*(1-e2)/(w*w*w), arc*cos/w // lengths of the two steps on the earth
			area := (east.X*north.Y - east.Y*north.X) / (mer * par)
			h, k := math.Hypot(north.X, north.Y)/mer, math.Hypot(east.X, east.Y)/par
			switch e.p.(type) {
			case *carto.Lambert, *carto.TransverseMercator:
				if math.Abs(h/k-1) > 1e-6 || math.Abs(area/(h*k)-1) > 1e-6 {
					t.Fatalf("%s at %v: scales %g north, %g east, area %g", name, p, h, k, area)
				}
			default:
				if math.Abs(area-1) > 1e-6 {
					t.Fatalf("%s at %v: area scale %.9g", name, p, area)
				}
			}
		}
	}
}

// slope is the way on the map from dLon, dLat before p to as much after it.
func slope(m carto.Projection, p grid.LonLat, dLon, dLat float64) carto.Point {
	a := m.Forward(grid.LonLat{Lon: p.Lon - dLon, Lat: p.Lat - dLat})
	b := m.Forward(grid.LonLat{Lon: p.Lon + dLon, Lat: p.Lat + dLat})
	return carto.Point{X: b.X - a.X, Y: b.Y - a.Y}
}

// Scale along the parallels of the contiguous-US Albers, h = 1/k, computed
// independently from Snyder 1987 eq. 14-16.
func TestAlbersScale(t *testing.T) {
	us := albers(t, carto.GRS80, -96, 23, 29.5, 45.5)
	for lat, k := range map[float64]float64{25: 1.012217, 29.5: 1, 37: 0.990438, 45.5: 1, 49: 1.012506} {
		e2 := carto.GRS80.Flattening * (2 - carto.GRS80.Flattening)
		sin, cos := math.Sincos(lat * math.Pi / 180)
		arc := 2e-4 * math.Pi / 180 * carto.GRS80.SemiMajor * cos / math.Sqrt(1-e2*sin*sin)
		s := slope(us, grid.LonLat{Lon: -80, Lat: lat}, 1e-4, 0)
		if got := math.Hypot(s.X, s.Y) / arc; math.Abs(got-k) > 2e-6 {
			t.Errorf("scale at %g° N is %.7f, want %.6f", lat, got, k)
		}
	}
}

func TestRefusals(t *testing.T) {
	at := grid.LonLat{Lon: 10, Lat: 40}
	for name, err := range map[string]error{
		"aea lat_1 = -lat_2": second(carto.NewAlbers(carto.WGS84, at, carto.Parallels{First: 30, Second: -30})),
		"aea lat_1 > 90":     second(carto.NewAlbers(carto.WGS84, at, carto.Parallels{First: 91, Second: 30})),
		"aea NaN":            second(carto.NewAlbers(carto.WGS84, at, carto.Parallels{First: math.NaN(), Second: 30})),
		"aea no earth":       second(carto.NewAlbers(carto.Ellipsoid{}, at, carto.Parallels{First: 20, Second: 30})),
		"aea lat_0":          second(carto.NewAlbers(carto.WGS84, grid.LonLat{Lat: 95}, carto.Parallels{First: 20, Second: 30})),
		"lcc lat_1 = -lat_2": second(carto.NewLambert(carto.WGS84, at, carto.Parallels{First: -30, Second: 30})),
		"lcc at the pole":    second(carto.NewLambert(carto.WGS84, at, carto.Parallels{First: 90, Second: 30})),
		"lcc origin away":    second(carto.NewLambert(carto.WGS84, grid.LonLat{Lat: -90}, carto.Parallels{First: 20, Second: 30})),
		"tmerc k0":           second(carto.NewTransverseMercator(carto.WGS84, at, 0)),
		"tmerc lat_0":        second(carto.NewTransverseMercator(carto.WGS84, grid.LonLat{Lat: -91}, 1)),
		"laea lat_0":         second(carto.NewAzimuthal(carto.WGS84, grid.LonLat{Lat: 90.1})),
		"cea lat_ts":         second(carto.NewCylindrical(carto.WGS84, 0, 90)),
		"cea too flat":       second(carto.NewCylindrical(carto.Ellipsoid{SemiMajor: 1, Flattening: 0.5}, 0, 0)),
	} {
		if err == nil {
			t.Errorf("%s was accepted", name)
		}
	}
}

func second[T any](_ T, err error) error { return err }

// Points off the map have no position.
func TestInverseOffTheMap(t *testing.T) {
	for name, c := range map[string]struct {
		p  carto.Projection
		at carto.Point
	}{
		"albers, gap of the cone": {albers(t, carto.WGS84, 0, 40, 30, 50), carto.Point{X: 1, Y: 2e7}},
		"albers, past the pole":   {albers(t, carto.WGS84, 0, 40, 30, 50), carto.Point{X: 0, Y: 5.6e6}},
		"azimuthal, off the disc": {azimuthal(t, carto.WGS84, 0, 40), carto.Point{X: 1.3e7}},
		"cylindrical, past pole":  {cylindrical(t, carto.WGS84, 0, 0), carto.Point{Y: 6.4e6}},
		"cylindrical, past 180":   {cylindrical(t, carto.WGS84, 0, 0), carto.Point{X: 2.1e7}},
	} {
		if got, ok := c.p.Inverse(c.at); ok {
			t.Errorf("%s: %v is at %v", name, c.at, got)
		}
	}
}

func TestChoose(t *testing.T) {
	for name, c := range map[string]struct {
		box  grid.Box
		want string
	}{
		"contiguous US":  {grid.Box{West: -125, South: 24.4, East: -66.9, North: 49.4}, "Albers equal-area conic, parallels 28.5° N and 45° N"},
		"Australia":      {grid.Box{West: 113, South: -44, East: 154, North: -10}, "Albers equal-area conic, parallels 38.5° S and 15.5° S"},
		"small and mid":  {grid.Box{West: -91, South: 37, East: -84, North: 42}, "Albers equal-area conic, parallels 37.85° N and 41.15° N"},
		"on the equator": {grid.Box{West: 90, South: -11, East: 141, North: 6}, "cylindrical equal-area, parallels 5° N and S"},
		"world":          {grid.Box{West: -180, South: -90, East: 180, North: 90}, "cylindrical equal-area, parallels 30° N and S"},
		"arctic":         {grid.Box{West: -180, South: 55, East: 180, North: 90}, "Lambert azimuthal equal-area, centre at the pole"},
		"high and round": {grid.Box{West: 4, South: 54, East: 14, North: 60}, "Lambert azimuthal equal-area, centre 57° N, 9° E"},
		"high and wide":  {grid.Box{West: 30, South: 50, East: 150, North: 70}, "Albers equal-area conic, parallels 53.5° N and 66.5° N"},
	} {
		if got := carto.Choose(c.box).String(); got != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}

func TestScreen(t *testing.T) {
	us := albers(t, carto.WGS84, -96, 23, 29.5, 45.5)
	b := carto.Extent(us, grid.Box{West: -125, South: 24, East: -66, North: 50})
	s := carto.Fit(b, plane.Pixel{X: 10, Y: 20}, plane.Pixel{X: 1010, Y: 2020})
	top := s.Pixel(carto.Point{X: b.Min.X, Y: b.Max.Y})
	low := s.Pixel(carto.Point{X: b.Max.X, Y: b.Min.Y})
	if math.Abs(top.X-10) > 1e-9 || math.Abs(low.X-1010) > 1e-9 {
		t.Errorf("the map reaches from %v to %v px, want 10 to 1010", top.X, low.X)
	}
	if top.Y >= low.Y || math.Abs(top.Y+low.Y-2040) > 1e-9 {
		t.Errorf("north is at %v, south at %v; want them in the middle, north on top", top.Y, low.Y)
	}
	half := 1.01 / (1 << 25) / s.PixelsPerMetre() // of the steps that pixels are rounded to
	if p := s.Point(s.Pixel(carto.Point{X: 123456, Y: 654321})); math.Abs(p.X-123456) > half || math.Abs(p.Y-654321) > half {
		t.Errorf("pixel and back gives %v", p)
	}
}

func BenchmarkForward(b *testing.B) { bench(b, false) }
func BenchmarkInverse(b *testing.B) { bench(b, true) }

func bench(b *testing.B, inverse bool) {
	for name, e := range every(b) {
		b.Run(name, func(b *testing.B) {
			in := spread(e.box, 1024)
			out := make([]carto.Point, len(in))
			for i, p := range in {
				out[i] = e.p.Forward(p)
			}
			n := 0
			for b.Loop() {
				if inverse {
					in[n%1024], _ = e.p.Inverse(out[n%1024])
				} else {
					out[n%1024] = e.p.Forward(in[n%1024])
				}
				n++
			}
			b.ReportMetric(float64(n)/b.Elapsed().Seconds()/1e6, "Mpoints/s")
		})
	}
}
