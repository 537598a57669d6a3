package plain_test

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"
	"testing/iotest"

	"golang.org/x/text/encoding/unicode"

	"weekband/grid/table/plain"
)

func Example() {
	r := plain.NewReader(strings.NewReader("\ufeffid,name\r\nA,Lowen Strand\r\n"))
	text, err := io.ReadAll(r)
	fmt.Printf("%q %v\n", text, err)
	fmt.Println(strings.Join(r.Notes(), "; "))
	// Output:
	// "id,name\nA,Lowen Strand\n" <nil>
	// left out the byte order mark at its beginning; took CR LF for the ends of lines
}

func TestEndsOfLines(t *testing.T) {
	for in, want := range map[string]string{
		"a\nb\n": "", "a\r\nb\r\n": "took CR LF for the ends of lines", "a\rb\r": "took CR for the ends of lines",
		"a\r\nb\r": "took CR, and CR LF, for the ends of lines", "\r": "took CR for the ends of lines", "": "",
	} {
		for name, from := range map[string]io.Reader{"at once": strings.NewReader(in), "by bytes": iotest.OneByteReader(strings.NewReader(in))} {
			r := plain.NewReader(from)
			got, err := io.ReadAll(r)
			plainly := strings.ReplaceAll(strings.ReplaceAll(in, "\r\n", "\n"), "\r", "\n")
			if notes := strings.Join(r.Notes(), "|"); err != nil || string(got) != plainly || notes != want {
				t.Errorf("%q %s: %q, %v, notes %q; want %q, %q", in, name, got, err, notes, plainly, want)
			}
		}
	}
}

// What golang.org/x/text writes as UTF-16 comes back, however it is cut.
func TestUTF16(t *testing.T) {
	const text = "id,name\nA,Saint Aldwýn 🌱 Upper\n"
	long := strings.Repeat(text, 5000)
	for _, order := range []unicode.Endianness{unicode.LittleEndian, unicode.BigEndian} {
		b, err := unicode.UTF16(order, unicode.UseBOM).NewEncoder().String(long)
		if err != nil {
			t.Fatal(err)
		}
		for _, from := range []io.Reader{strings.NewReader(b), iotest.HalfReader(strings.NewReader(b)), iotest.DataErrReader(strings.NewReader(b))} {
			r := plain.NewReader(from)
			got, err := io.ReadAll(r)
			if err != nil || string(got) != long || !strings.Contains(r.Notes()[0], "UTF-16") {
				t.Errorf("%v: %d bytes of %d, %v, %q", order, len(got), len(long), err, r.Notes())
			}
		}
	}
}

func TestRefusals(t *testing.T) {
	far := strings.Repeat("Lowen Strand,40.21,-52.43\n", 5000)
	for name, c := range map[string]struct {
		text, want string
		line, col  int
	}{
		"Latin-1":           {"name\nSt Aldw\xfdn\n", `the byte 0xfd is not UTF-8 (in Latin-1 it would be 'ý')`, 2, 8},
		"Latin-1, last":     {"name\r\nM\xe9", "0xe9", 2, 2},
		"far down":          {far + "M\xe9\n", "0xe9", 5001, 2},
		"half a character":  {"\n\n\xe2\x82", "0xe2", 3, 1},
		"NUL":               {"name\nA\x00B", "a NUL byte; want text", 2, 2},
		"UTF-16, no mark":   {"n\x00a\x00m\x00e\x00", "UTF-16 without its mark", 1, 2},
		"UTF-16, odd":       {"\xff\xfea\x00b", "half a character of UTF-16", 1, 2},
		"UTF-16, one half":  {"\xff\xfea\x00\n\x00\x00\xd8", "half a character of UTF-16", 2, 1},
		"UTF-16, wrong two": {"\xfe\xff\xd8\x00\x00a", "half a character of UTF-16", 1, 1},
	} {
		for _, from := range []io.Reader{strings.NewReader(c.text), iotest.OneByteReader(strings.NewReader(c.text))} {
			_, err := io.ReadAll(plain.NewReader(from))
			e, ok := errors.AsType[*plain.Error](err)
			if !ok || !strings.Contains(e.Text, c.want) || e.Line != c.line || e.Col != c.col {
				t.Errorf("%s: %+v, %v; want %d:%d %s", name, e, err, c.line, c.col, c.want)
			}
		}
	}
}

func TestReaderThatFails(t *testing.T) {
	for _, n := range []int{0, 2, 100} {
		_, err := io.ReadAll(plain.NewReader(io.MultiReader(strings.NewReader(strings.Repeat("x", n)), iotest.ErrReader(io.ErrNoProgress))))
		if !errors.Is(err, io.ErrNoProgress) {
			t.Errorf("after %d bytes: %v", n, err)
		}
	}
}

func FuzzReader(f *testing.F) {
	f.Add([]byte("\ufeffa\r\nb\rc"))
	f.Add([]byte("\xff\xfea\x00\r\x00\n\x00"))
	f.Add([]byte("\xfe\xff\xd8\x00"))
	f.Add([]byte("M\xe9\x00"))
	f.Fuzz(func(t *testing.T, b []byte) {
		whole, err := io.ReadAll(plain.NewReader(bytes.NewReader(b)))
		parts, again := io.ReadAll(plain.NewReader(iotest.OneByteReader(bytes.NewReader(b))))
		if !bytes.Equal(whole, parts) || fmt.Sprint(err) != fmt.Sprint(again) {
			t.Fatalf("%q, %v at once; %q, %v by bytes", whole, err, parts, again)
		}
		if bytes.ContainsAny(whole, "\r\x00") || !bytes.Equal(bytes.ToValidUTF8(whole, nil), whole) {
			t.Fatalf("%q is not plain", whole)
		}
	})
}
