package packed_test

import (
	"bytes"
	"compress/gzip"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"strings"
	"testing"

	"weekband/grid/packed"
)

func pack(text []byte) *bytes.Buffer {
	var b bytes.Buffer
	w := gzip.NewWriter(&b)
	w.Write(text)
	w.Close()
	return &b
}

// Text that packs well, small text that packs as tightly as text can, and text
// in two members come back; a trap ends soon after its limit.
func TestUnpacks(t *testing.T) {
	days := make([]byte, 20<<20)
	for i := range days {
		days[i] = "0123456789"[rand.IntN(10)] // half a byte each
	}
	small := bytes.Repeat([]byte("0"), packed.Freely)
	for name, text := range map[string][]byte{"days": days, "small": small, "nothing": nil} {
		r, err := packed.NewReader(pack(text))
		if err != nil {
			t.Fatal(err)
		}
		if got, err := io.ReadAll(r); err != nil || !bytes.Equal(got, text) {
			t.Errorf("%s: %d bytes of %d, %v", name, len(got), len(text), err)
		}
	}
	r, err := packed.NewReader(pack(make([]byte, 64<<20)))
	if err != nil {
		t.Fatal(err)
	}
	n, err := io.Copy(io.Discard, r)
	if trap, ok := errors.AsType[*packed.Trap](err); !ok || n > packed.Freely+1<<20 || trap.Text <= packed.Freely {
		t.Errorf("a trap gave %d bytes and %v", n, err)
	}
	if _, err := packed.NewReader(strings.NewReader("id,name,lat,lon,elev_m\n")); !errors.Is(err, gzip.ErrHeader) {
		t.Errorf("plain text: %v", err)
	}
}

func ExampleNewReader() {
	r, err := packed.NewReader(pack([]byte("id,name\n")))
	if err != nil {
		fmt.Println(err)
		return
	}
	text, err := io.ReadAll(r)
	fmt.Printf("%q %v\n", text, err)
	// Output: "id,name\n" <nil>
}
