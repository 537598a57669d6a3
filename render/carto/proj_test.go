package carto_test

import (
	"fmt"
	"math"
	"os/exec"
	"strings"
	"testing"

	"weekband/grid"
	"weekband/grid/oracle"
	"weekband/render/carto"
)

// PROJ's command cs2cs as the reference on 400 positions each, in both
// directions, to 0.1 mm.
func TestAgreesWithPROJ(t *testing.T) {
	const cs2cs = "cs2cs"
	oracle.Need(t, cs2cs)
	for _, c := range []struct {
		def string
		p   carto.Projection
		box grid.Box
	}{
		{"+proj=aea +ellps=GRS80 +lat_0=23 +lon_0=-96 +lat_1=29.5 +lat_2=45.5", albers(t, carto.GRS80, -96, 23, 29.5, 45.5), grid.Box{West: -160, South: -20, East: -30, North: 89.99}},
		{"+proj=aea +ellps=WGS84 +lat_0=-25 +lon_0=134 +lat_1=-18 +lat_2=-36", albers(t, carto.WGS84, 134, -25, -18, -36), grid.Box{West: 60, South: -89, East: 179, North: 20}},
		{"+proj=aea +R=6371007 +lat_0=5 +lon_0=10 +lat_1=40 +lat_2=40", albers(t, carto.Sphere(6371007), 10, 5, 40, 40), grid.Box{West: -80, South: -30, East: 100, North: 85}},
		{"+proj=lcc +ellps=WGS84 +lat_0=52 +lon_0=10 +lat_1=35 +lat_2=65", lambert(t, carto.WGS84, 10, 52, 35, 65), grid.Box{West: -50, South: -30, East: 80, North: 89}},
		{"+proj=lcc +ellps=WGS84 +lat_0=-30 +lon_0=25 +lat_1=-30 +lat_2=-30", lambert(t, carto.WGS84, 25, -30, -30, -30), grid.Box{West: -50, South: -80, East: 80, North: 40}},
		{"+proj=tmerc +ellps=WGS84 +lat_0=49 +lon_0=-2 +k_0=0.9996012717", transverse(t, carto.WGS84, -2, 49, 0.9996012717), grid.Box{West: -32, South: -80, East: 28, North: 88}},
		{"+proj=laea +ellps=GRS80 +lat_0=52 +lon_0=10", azimuthal(t, carto.GRS80, 10, 52), grid.Box{West: -60, South: -20, East: 90, North: 89}},
		{"+proj=laea +ellps=WGS84 +lat_0=90 +lon_0=-40", azimuthal(t, carto.WGS84, -40, 90), grid.Box{West: -179, South: 10, East: 179, North: 89}},
		{"+proj=laea +ellps=WGS84 +lat_0=-90 +lon_0=0", azimuthal(t, carto.WGS84, 0, -90), grid.Box{West: -179, South: -89, East: 179, North: -10}},
		{"+proj=laea +ellps=WGS84 +lat_0=0 +lon_0=100", azimuthal(t, carto.WGS84, 100, 0), grid.Box{West: 30, South: -70, East: 170, North: 70}},
		{"+proj=cea +ellps=WGS84 +lon_0=20 +lat_ts=30", cylindrical(t, carto.WGS84, 20, 30), grid.Box{West: -150, South: -89, East: 179, North: 89}},
	} {
		ps := spread(c.box, 400)
		geo := "+proj=longlat " + ellipsoidOf(c.def)
		want := runPROJ(t, cs2cs, geo, c.def, ps)
		for i, p := range ps {
			got := c.p.Forward(p)
			if gap := math.Hypot(got.X-want[i].Lon, got.Y-want[i].Lat); gap > 1e-4 {
				t.Errorf("%s: %v is at %v, PROJ says %v", c.def, p, got, want[i])
				break
			}
			back, ok := c.p.Inverse(carto.Point{X: want[i].Lon, Y: want[i].Lat})
			if !ok || math.Hypot((back.Lon-p.Lon)*math.Cos(p.Lat*math.Pi/180), back.Lat-p.Lat) > 1e-9 {
				t.Errorf("%s: PROJ's point of %v comes back as %v", c.def, p, back)
				break
			}
		}
	}
}

func ellipsoidOf(def string) string {
	for _, f := range strings.Fields(def) {
		if strings.HasPrefix(f, "+ellps=") || strings.HasPrefix(f, "+R=") {
			return f
		}
	}
	return ""
}

// runPROJ returns the coordinates cs2cs gives, x as Lon and y as Lat.
func runPROJ(t *testing.T, cs2cs, from, to string, ps []grid.LonLat) []grid.LonLat {
	t.Helper()
	var in strings.Builder
	for _, p := range ps {
		fmt.Fprintf(&in, "%.12f %.12f\n", p.Lon, p.Lat)
	}
	args := append(append([]string{"-f", "%.9f"}, strings.Fields(from)...), "+to")
	cmd := exec.Command(cs2cs, append(args, strings.Fields(to)...)...)
	cmd.Stdin = strings.NewReader(in.String())
	text, err := cmd.Output()
	if err != nil {
		t.Fatalf("cs2cs %s: %v", to, err)
	}
	out := make([]grid.LonLat, 0, len(ps))
	for line := range strings.Lines(string(text)) {
		var p grid.LonLat
		var z float64
		if _, err := fmt.Sscan(line, &p.Lon, &p.Lat, &z); err != nil {
			t.Fatalf("cs2cs %s: line %q", to, line)
		}
		out = append(out, p)
	}
	if len(out) != len(ps) {
		t.Fatalf("cs2cs %s: %d lines for %d points", to, len(out), len(ps))
	}
	return out
}
