package render_test

import (
	"bytes"
	"crypto/sha256"
	"image/color"
	"image/gif"
	"image/png"
	"io"
	"slices"
	"sync"
	"testing"

	"weekband/render"
	"weekband/render/looks"
	"weekband/render/press"
)

// memory is a Keeper that counts what it was asked.
type memory struct {
	mu         sync.Mutex
	work       map[press.Key][]byte
	hits, puts int
}

func (m *memory) Get(k press.Key) ([]byte, bool) {
	m.mu.Lock()
	defer m.mu.Unlock()
	data, ok := m.work[k]
	if ok {
		m.hits++
	}
	return data, ok
}

func (m *memory) Put(k press.Key, data []byte) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.work == nil {
		m.work = map[press.Key][]byte{}
	}
	m.puts++
	m.work[k] = bytes.Clone(data)
}

// kept returns the hits and puts since it was last asked.
func (m *memory) kept() (hits, puts int) {
	hits, puts = m.hits, m.puts
	m.hits, m.puts = 0, 0
	return hits, puts
}

// keptFiles draws a page in every format.
func keptFiles(t *testing.T, p *press.Page) (files [][]byte) {
	t.Helper()
	d := press.Description{Title: "A map"}
	for _, write := range []func(io.Writer) error{
		func(w io.Writer) error { return p.PNG(w, 1) },
		func(w io.Writer) error { return p.PrintPNG(w, press.Print{Width: 2}) },
		func(w io.Writer) error { return p.ScreenPNG(w, 1.6) },
		func(w io.Writer) error { return p.SVG(w, d) },
		func(w io.Writer) error { return p.PDF(w, press.A4, d) },
	} {
		var b bytes.Buffer
		if err := write(&b); err != nil {
			t.Fatal(err)
		}
		files = append(files, b.Bytes())
	}
	return files
}

// Whether pictures come from kept work or not, they are the same to the byte,
// also under another title, for which only the title is painted.
func TestKeptPicturesAreTheSame(t *testing.T) {
	unraced(t)
	var m memory
	territory := merrow.hilly()
	bare := must(render.NewAtlas(territory, 440))
	territory.Keeper = &m
	keeping := must(render.NewAtlas(territory, 440))
	for _, grey := range []bool{false, true} {
		for i, title := range []string{"Soil warm-up", "Soil warm-up", "Another title"} {
			shown := merrow.bandMap(6)
			shown.Title, shown.Grey = title, grey
			want, got := keptFiles(t, must(bare.Bands(shown)).Page), keptFiles(t, must(keeping.Bands(shown)).Page)
			for k := range want {
				if !bytes.Equal(want[k], got[k]) {
					t.Errorf("%q, grey %v, format %d: the kept picture differs", title, grey, k)
				}
			}
			hits, puts := m.kept()
			switch {
			case i == 0 && puts < 5:
				t.Errorf("a first map: %d hits, %d puts", hits, puts)
			case i == 1 && (hits != 5 || puts != 0):
				t.Errorf("the same map: %d hits, %d puts", hits, puts)
			case i == 2 && (hits < 3 || puts != 2): // SVG and PDF have no part without words
				t.Errorf("the map under another title: %d hits, %d puts", hits, puts)
			}
			if _, err := png.Decode(bytes.NewReader(got[0])); err != nil {
				t.Errorf("%q: %v", title, err)
			}
		}
	}
}

// Whatever changes what a picture shows makes a picture of its own.
func TestKeptPicturesTellAllApart(t *testing.T) {
	unraced(t)
	var m memory
	territory := merrow.hilly()
	territory.Keeper = &m
	plain := merrow.bandMap(6)
	for name, change := range map[string]func(*render.BandMap){
		"nothing yet": func(*render.BandMap) {}, "grey": func(b *render.BandMap) { b.Grey = true },
		"palette": func(b *render.BandMap) { b.Scheme = looks.Schemes[1] }, "label": func(b *render.BandMap) { b.Bands[2].Label += "." },
		"share": func(b *render.BandMap) { b.Bands[2].Share += 0.02 }, "week": func(b *render.BandMap) { b.Before++ },
		"credits": func(b *render.BandMap) { b.Source += " Again." }, "caution": func(b *render.BandMap) { b.Cautions = append(b.Cautions, "Mind.") },
		"one place": func(b *render.BandMap) { b.Bands[1].Shape[0][0][1][0] += 1e-3 },
		"logo":      func(b *render.BandMap) { b.Logo = crest(40, 20) },
	} {
		b := plain
		b.Bands = slices.Clone(plain.Bands)
		for i := range b.Bands {
			b.Bands[i].Shape = b.Bands[i].Shape.Clone()
		}
		change(&b)
		page := must(must(render.NewAtlas(territory, 440)).Bands(b))
		if err := page.PNG(io.Discard, 1); err != nil {
			t.Fatal(err)
		}
		if hits, puts := m.kept(); hits != 0 || puts != 1 {
			t.Errorf("%s: %d hits, %d puts, want a picture of its own", name, hits, puts)
		}
	}
	page := must(must(render.NewAtlas(territory, 440)).Bands(plain))
	for name, write := range map[string]func(io.Writer) error{
		"larger":      func(w io.Writer) error { return page.PNG(w, 2) },
		"few colours": func(w io.Writer) error { return page.ScreenPNG(w, 1) },
		"SVG":         func(w io.Writer) error { return page.SVG(w, press.Description{Title: "A"}) },
		"other SVG":   func(w io.Writer) error { return page.SVG(w, press.Description{Title: "B"}) },
		"German SVG":  func(w io.Writer) error { return page.SVG(w, press.Description{Title: "A", Lang: "de"}) },
		"A4":          func(w io.Writer) error { return page.PDF(w, press.A4, press.Description{Title: "A"}) },
		"Letter":      func(w io.Writer) error { return page.PDF(w, press.Letter, press.Description{Title: "A"}) },
	} {
		m.kept()
		if err := write(io.Discard); err != nil {
			t.Fatal(err)
		}
		if _, puts := m.kept(); puts == 0 {
			t.Errorf("%s: nothing was made", name)
		}
	}
}

// A series is the same kept or not, and under another title only its heads and
// the first image of the animation are made anew.
func TestKeptSeriesIsTheSame(t *testing.T) {
	unraced(t)
	var m memory
	territory := merrow.territory()
	bare := must(render.NewAtlas(territory, 440))
	territory.Keeper = &m
	keeping := must(render.NewAtlas(territory, 440))
	draw := func(a *render.Atlas, title string) (sums [][sha256.Size]byte) {
		var pages []*press.Page
		for _, f := range merrow.frames(5) {
			f.Title = title
			pages = append(pages, a.Status(f).Page)
		}
		s := must(press.NewSeries(pages, 1))
		for i := range pages {
			var b bytes.Buffer
			if err := s.PNG(&b, i); err != nil {
				t.Fatal(err)
			}
			sums = append(sums, sha256.Sum256(b.Bytes()))
		}
		film := animated(s)
		if g, err := gif.DecodeAll(bytes.NewReader(film)); err != nil || len(g.Image) != 5 {
			t.Fatalf("the animation: %v", err)
		}
		return append(sums, sha256.Sum256(film))
	}
	for i, title := range []string{"Soil warm-up", "Soil warm-up", "Another title"} {
		if want, got := draw(bare, title), draw(keeping, title); !slices.Equal(want, got) {
			t.Errorf("build %d: the kept series differs", i+1)
		}
		if hits, puts := m.kept(); (i == 0) != (puts == 2) || (i > 0) != (hits == 2) {
			t.Errorf("build %d: %d hits, %d puts", i+1, hits, puts)
		}
	}
}

// A title under which a picture was made first leaves no trace in its colours:
// ground and legend are the same pixels, the words as dark as their ink.
func TestTitlesKeepTheirInk(t *testing.T) {
	unraced(t)
	m := merrow.bandMap(6)
	m.Title, m.Subtitle = "Wide Welcome Words", "Many small words follow that are not black but grey."
	page := must(must(render.NewAtlas(merrow.territory(), 440)).Bands(m))
	for name, write := range map[string]func(io.Writer) error{
		"all colours": func(w io.Writer) error { return page.PNG(w, 2) }, "few": func(w io.Writer) error { return page.ScreenPNG(w, 2) },
	} {
		var b bytes.Buffer
		if err := write(&b); err != nil {
			t.Fatal(err)
		}
		got := must(png.Decode(&b))
		want := must(page.Paint(2)).Image()
		worst := 0
		for y := range int(2 * page.Layout.Frame.Top) {
			for x := range want.Rect.Dx() {
				a, b := color.RGBAModel.Convert(got.At(x, y)).(color.RGBA), want.RGBAAt(x, y)
				worst = max(worst, int(a.G)-int(b.G), int(b.G)-int(a.G))
			}
		}
		if limit := map[string]int{"all colours": 12, "few": 24}[name]; worst > limit {
			t.Errorf("%s: a pixel of the title is %d of 255 off", name, worst)
		}
	}
}
