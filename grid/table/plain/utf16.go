package plain

import (
	"bufio"
	"io"
	"unicode/utf16"
	"unicode/utf8"
)

// utf16Reader gives UTF-16 as UTF-8. What is no UTF-16 comes out as the byte
// 0xFF, which is refused.
type utf16Reader struct {
	from *bufio.Reader
	big  bool
}

const broken = 0xff

// Read implements io.Reader; b must hold a character.
func (u *utf16Reader) Read(b []byte) (int, error) {
	n := 0
	for n+utf8.UTFMax <= len(b) {
		unit, err := u.unit()
		if err != nil {
			if err == io.ErrUnexpectedEOF { // half a unit
				b[n], n, err = broken, n+1, io.EOF
			}
			return n, err
		}
		if utf16.IsSurrogate(unit) {
			second, err := u.unit()
			if unit = utf16.DecodeRune(unit, second); err != nil || unit == utf8.RuneError {
				b[n] = broken
				return n + 1, nil
			}
		}
		n += utf8.EncodeRune(b[n:], unit)
	}
	return n, nil
}

// unit reads 16 bits.
func (u *utf16Reader) unit() (rune, error) {
	var two [2]byte
	if _, err := io.ReadFull(u.from, two[:]); err != nil {
		return 0, err
	}
	if u.big {
		return rune(two[0])<<8 | rune(two[1]), nil
	}
	return rune(two[1])<<8 | rune(two[0]), nil
}
