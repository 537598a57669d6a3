package main

import (
	"bytes"
	"context"
	"encoding/base64"
	"fmt"
	"image"
	paint "image/draw"
	"image/gif"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"

	"weekband/cmd/weekband/internal/tracing"
	"weekband/grid/oracle"
)

// mostAnimated is what a reader on the road is asked to load, bytes.
const mostAnimated = 1_500_000

// weekPictures returns an edition's animation of a window and the pictures of
// its weeks in the order in which they play: the season may pass New Year.
func weekPictures(t *testing.T, window string) (film []byte, weeks [][]byte) {
	t.Helper()
	dir := filepath.Join(demoEdition(t), "weeks")
	film, err := os.ReadFile(filepath.Join(dir, window+".gif"))
	if err != nil {
		t.Fatal(err)
	}
	names, err := filepath.Glob(filepath.Join(dir, window, "*.png"))
	if err != nil {
		t.Fatal(err)
	}
	for i := range names {
		if fmt.Sprintf("%02d.png", i+1) != filepath.Base(names[i]) { // the weeks from here on come first
			names = append(names[i:len(names):len(names)], names[:i]...)
			break
		}
	}
	for _, name := range names {
		b, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		weeks = append(weeks, b)
	}
	return film, weeks
}

// The animation is the pictures of the weeks, one after the other.
func TestAnimationIsTheWeeks(t *testing.T) {
	for _, id := range windowIDs {
		film, weeks := weekPictures(t, id)
		g, err := gif.DecodeAll(bytes.NewReader(film))
		if err != nil {
			t.Fatal(err)
		}
		if len(film) > mostAnimated || len(g.Image) != len(weeks) || g.LoopCount != 0 {
			t.Fatalf("%s: %d bytes, %d frames of %d weeks, loop count %d", id, len(film), len(g.Image), len(weeks), g.LoopCount)
		}
		screen := image.NewRGBA(image.Rect(0, 0, g.Config.Width, g.Config.Height))
		for i, im := range g.Image {
			paint.Draw(screen, im.Rect, im, im.Rect.Min, paint.Over)
			week, err := png.Decode(bytes.NewReader(weeks[i]))
			if err != nil {
				t.Fatal(err)
			}
			want := image.NewRGBA(week.Bounds())
			paint.Draw(want, want.Rect, week, image.Point{}, paint.Src)
			if !bytes.Equal(screen.Pix, want.Pix) {
				t.Errorf("%s: frame %d is not the picture of its week", id, i)
			}
			if last := i == len(g.Image)-1; g.Delay[i] != map[bool]int{false: 50, true: 300}[last] {
				t.Errorf("%s: frame %d of %d shows for %d hundredths of a second", id, i, len(g.Image), g.Delay[i])
			}
		}
	}
}

// filmFacts is what Chromium's own decoder finds in an animation.
type filmFacts struct {
	Frames  int       `json:"frames"`
	Endless bool      `json:"endless"`
	Seconds []float64 `json:"seconds"` // of each frame
	Far     int       `json:"far"`     // by how much a channel differs from the picture of a week
}

const decode = `(async (film, weeks) => {
  const bytes = text => Uint8Array.from(atob(text), c => c.charCodeAt(0));
  const decoder = new ImageDecoder({data: bytes(film), type: 'image/gif'});
  await decoder.tracks.ready;
  await decoder.completed;
  const track = decoder.tracks.selectedTrack;
  const facts = {frames: track.frameCount, endless: track.repetitionCount === Infinity, seconds: [], far: 0};
  const pixels = (image, w, h) => {
    const c = new OffscreenCanvas(w, h).getContext('2d');
    c.drawImage(image, 0, 0);
    return c.getImageData(0, 0, w, h).data;
  };
  for (let i = 0; i < track.frameCount; i++) {
    const {image} = await decoder.decode({frameIndex: i});
    facts.seconds.push(image.duration / 1e6);
    if (weeks[i]) {
      const week = await createImageBitmap(new Blob([bytes(weeks[i])], {type: 'image/png'}));
      const a = pixels(image, week.width, week.height), b = pixels(week, week.width, week.height);
      for (let k = 0; k < a.length; k++) facts.far = Math.max(facts.far, Math.abs(a[k] - b[k]));
    }
    image.close();
  }
  return facts;
})`

// A browser plays it as meant: checked with the decoder of Chromium, which
// is not ours.
func TestAnimationInABrowser(t *testing.T) {
	ctx := browser(t)
	film, weeks := weekPictures(t, windowIDs[0])
	page := "file://" + filepath.ToSlash(filepath.Join(demoEdition(t), "windows", "summer-annuals.html")) // where decoders may be used
	if err := chromedp.Do(ctx, chromedp.Navigate(page)); err != nil {
		t.Fatal(err)
	}
	quoted := make([]string, len(weeks))
	for i := range weeks {
		if i%6 == 0 || i == len(weeks)-1 {
			quoted[i] = base64.StdEncoding.EncodeToString(weeks[i])
		}
	}
	call := fmt.Sprintf(`%s(%q, [%s])`, decode, base64.StdEncoding.EncodeToString(film), `"`+strings.Join(quoted, `","`)+`"`)
	facts, err := chromedp.Run(ctx, chromedp.Evaluate[filmFacts](call, chromedp.EvalAwaitPromise))
	if err != nil {
		t.Fatal(err)
	}
	if facts.Frames != len(weeks) || !facts.Endless || facts.Far > 0 {
		t.Errorf("%d frames of %d weeks, endless %v, pixels off by up to %d", facts.Frames, len(weeks), facts.Endless, facts.Far)
	}
	for i, s := range facts.Seconds {
		if want := map[bool]float64{false: 0.5, true: 3}[i == len(weeks)-1]; s != want {
			t.Errorf("frame %d shows for %g s, want %g", i, s, want)
		}
	}
}

// motionFacts is what a reader sees who opens the animation.
type motionFacts struct {
	Source string `json:"source"`
	Width  int    `json:"width"`
	Note   string `json:"note"`
	Sheet  bool   `json:"sheet"` // all weeks side by side are there without opening anything
}

const play = `(async () => {
  const film = document.querySelector('.film'), image = film.querySelector('img'), sheet = document.querySelector('.sheet img');
  sheet.scrollIntoView();
  await sheet.decode();
  film.closest('details').open = true;
  image.scrollIntoView();
  await image.decode();
  return {source: image.currentSrc, width: image.naturalWidth, note: film.querySelector('figcaption').innerText, sheet: sheet.naturalWidth > 0};
})()`

// The page shows stills until the animation is asked for, and a still even
// then to readers whose system asks for less motion.
func TestMotionOnlyWhenAskedFor(t *testing.T) {
	oracle.Need(t, "chromium")
	page := "file://" + filepath.ToSlash(filepath.Join(demoEdition(t), "windows", "summer-annuals.html"))
	for name, c := range map[string]struct {
		flags  []chromedp.ExecAllocatorOption
		source string
		note   string
	}{
		"as usual":    {nil, ".gif", "Half a second a week"},
		"less motion": {[]chromedp.ExecAllocatorOption{chromedp.Flag("force-prefers-reduced-motion", true)}, ".png", "less motion"},
	} {
		t.Run(name, func(t *testing.T) {
			ctx := browser(t, c.flags...)
			if err := chromedp.Do(ctx); err != nil {
				t.Fatal(err)
			}
			films := filmRequests(ctx, t)
			if err := chromedp.Do(ctx, chromedp.EmulateViewport(1280, 900), chromedp.Navigate(page)); err != nil {
				t.Fatal(err)
			}
			if n := films(); n > 0 {
				t.Errorf("the page loads %d animations nobody asked for", n)
			}
			facts, err := chromedp.Run(ctx, chromedp.Evaluate[motionFacts](play, chromedp.EvalAwaitPromise))
			if err != nil {
				t.Fatal(err)
			}
			if !strings.HasSuffix(facts.Source, c.source) || facts.Width != tracing.FrameWidth || !strings.Contains(facts.Note, c.note) || !facts.Sheet {
				t.Errorf("got %+v, want a picture %s, %d px wide, and %q", facts, c.source, tracing.FrameWidth, c.note)
			}
			if moving := c.source == ".gif"; (films() > 0) != moving {
				t.Errorf("%d animations were loaded", films())
			}
		})
	}
}

// filmRequests counts the animations a browser asks for from now on.
func filmRequests(ctx context.Context, t *testing.T) func() int {
	t.Helper()
	var mu sync.Mutex
	n := 0
	err := chromedp.Listen(ctx, func(ev any) {
		if r, ok := ev.(*network.EventRequestWillBeSent); ok && strings.HasSuffix(r.Request.URL, ".gif") {
			mu.Lock()
			defer mu.Unlock()
			n++
		}
	})
	if err != nil {
		t.Fatal(err)
	}
	return func() int {
		mu.Lock()
		defer mu.Unlock()
		return n
	}
}
