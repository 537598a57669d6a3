package main

import (
	"bytes"
	"context"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/output"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/cmd/weekband/internal/survey"
)

// orderOf reads a recipe for a build into a folder of the test.
func orderOf(t *testing.T, path string) survey.Order {
	t.Helper()
	r, err := recipe.Load(path)
	if err != nil {
		t.Fatal(err)
	}
	return survey.Order{Recipe: r, Path: path, Out: filepath.Join(t.TempDir(), "out")}
}

// What a stream writes is what the whole edition holds: crossing grids to the
// byte, tables to a tenth of a day, dates and shares as they are.
func TestStreamAgreesWithTheEdition(t *testing.T) {
	o := orderOf(t, islet(t))
	if err := pipeline(t.Context(), o, nil); err != nil {
		t.Fatal(err)
	}
	s := o
	s.Stream, s.Out = true, filepath.Join(t.TempDir(), "streamed")
	if err := pipeline(t.Context(), s, nil); err != nil {
		t.Fatal(err)
	}
	read := func(o survey.Order, name string) []byte {
		data, err := os.ReadFile(filepath.Join(o.Out, name))
		if err != nil {
			t.Fatal(err)
		}
		return data
	}
	if name := output.GridFile("spring"); !bytes.Equal(read(o, name), read(s, name)) {
		t.Errorf("%s differs", name)
	}
	whole, streamed := strings.Split(string(read(o, output.TableCSV)), "\r\n"), strings.Split(string(read(s, output.TableCSV)), "\r\n")
	if len(whole) != len(streamed) || len(whole) < 4 {
		t.Fatalf("%d lines, want %d", len(streamed), len(whole))
	}
	for i := range whole {
		want, got := strings.Split(whole[i], ","), strings.Split(streamed[i], ",")
		for k := range want {
			a, errA := strconv.ParseFloat(want[k], 64)
			b, errB := strconv.ParseFloat(got[k], 64)
			if errA == nil && errB == nil && math.Abs(a-b) < 0.11 {
				continue
			}
			if want[k] != got[k] {
				t.Errorf("line %d, column %d: %q, want %q", i+1, k+1, got[k], want[k])
			}
		}
	}
	var a, b output.Manifest
	if err := json.Unmarshal(read(o, "manifest.json"), &a); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(read(s, "manifest.json"), &b); err != nil {
		t.Fatal(err)
	}
	for i, w := range a.Windows {
		got := b.Windows[i]
		if math.Abs(w.Median.Day-got.Median.Day) > 0.02 || math.Abs(w.P90.Day-got.P90.Day) > 0.02 || w.BeyondKm2 != got.BeyondKm2 || len(w.WeeksKm2) != len(got.WeeksKm2) {
			t.Errorf("%+v, want %+v", got, w)
		}
		for week, km2 := range w.WeeksKm2 {
			if math.Abs(got.WeeksKm2[week]-km2) > 0.1 {
				t.Errorf("week of %s: %v km², want %v", week, got.WeeksKm2[week], km2)
			}
		}
	}
	for _, name := range []string{"index.html", "maps", "data/lookup.json"} {
		if _, err := os.Stat(filepath.Join(s.Out, name)); err == nil {
			t.Errorf("a stream writes %s", name)
		}
	}
}

// A grid past what an edition can hold says what to do, and a stream takes it.
func TestGridTooLargeForAnEdition(t *testing.T) {
	path := islet(t)
	rewrite(t, path, "soil: {", "grid: {cell: 0.00001 deg}\nsoil: {")
	o := orderOf(t, path)
	err := pipeline(t.Context(), o, nil)
	if err == nil || !strings.Contains(err.Error(), "build --stream") {
		t.Fatalf("error %v", err)
	}
	o.Stream = true
	ctx, cancel := context.WithCancel(t.Context())
	cancel() // 2.4 billion cells would take their time
	if err := pipeline(ctx, o, nil); err == nil || strings.Contains(err.Error(), "cells") {
		t.Errorf("error %v, want that it was cancelled", err)
	}
}

// A land without normals is refused as by a whole build, and leaves nothing.
func TestStreamOfNothing(t *testing.T) {
	path := islet(t)
	rewrite(t, path, "period:", "unit: C, period:")
	months, err := filepath.Glob(filepath.Join(filepath.Dir(path), "tavg-*.asc"))
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range months {
		text, err := os.ReadFile(m)
		if err != nil {
			t.Fatal(err)
		}
		lines := strings.SplitAfterN(string(text), "\n", 7)
		empty := strings.Repeat(strings.Repeat("-9999 ", 12)+"\n", 2)
		if err := os.WriteFile(m, []byte(strings.Join(lines[:6], "")+empty), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	o := orderOf(t, path)
	o.Stream = true
	if err := pipeline(t.Context(), o, nil); err == nil || !strings.Contains(err.Error(), "nothing to map") {
		t.Errorf("error %v", err)
	}
	if _, err := os.Stat(o.Out); err == nil {
		t.Error("an edition stands")
	}
}
