package files

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"unicode/utf16"
	"unicode/utf8"
)

// An Encoding is how a text was written. Its String is what a note calls it.
type Encoding string

// Encodings that are told apart by the first bytes; UTF8 stands for whatever
// has no mark, and Windows1252 is found by ReadFrom alone.
const (
	UTF8        Encoding = "UTF-8"
	UTF8Marked  Encoding = "UTF-8 with a byte order mark"
	UTF16Little Encoding = "UTF-16 (little endian)"
	UTF16Big    Encoding = "UTF-16 (big endian)"
	Windows1252 Encoding = "Windows-1252"
)

// Decode returns the text as UTF-8 without its byte order mark, as it comes
// in: bytes in other encodings without a mark pass through. It waits for four
// bytes. The error says that the input is empty or no text.
func Decode(in io.Reader) (io.Reader, Encoding, error) {
	start := make([]byte, 4)
	n, err := io.ReadFull(in, start)
	if err != nil && err != io.EOF && err != io.ErrUnexpectedEOF {
		return nil, UTF8, err
	}
	start = start[:n]
	rest := func(skip int) io.Reader { return io.MultiReader(bytes.NewReader(start[skip:]), in) }
	starts := func(with string) bool { return bytes.HasPrefix(start, []byte(with)) }
	switch {
	case starts("PK\x03\x04"), starts("\xd0\xcf\x11\xe0"), starts("\x1f\x8b"):
		return nil, UTF8, errWorkbook
	case starts("\xff\xfe\x00\x00"), starts("\x00\x00\xfe\xff"):
		return nil, UTF8, errors.New("UTF-32: save it as UTF-8")
	case starts("\xef\xbb\xbf"):
		return rest(3), UTF8Marked, nil
	case starts("\xff\xfe"):
		return &wide{in: rest(2)}, UTF16Little, nil
	case starts("\xfe\xff"):
		return &wide{in: rest(2), big: true}, UTF16Big, nil
	case n >= 2 && start[0] != 0 && start[1] == 0: // a Latin letter without a mark before it
		return &wide{in: rest(0)}, UTF16Little, nil
	case n >= 2 && start[0] == 0 && start[1] != 0:
		return &wide{in: rest(0), big: true}, UTF16Big, nil
	}
	return rest(0), UTF8, nil
}

// wide turns UTF-16 into UTF-8.
type wide struct {
	in   io.Reader
	big  bool
	raw  [4096]byte
	left int    // bytes of raw that wait for the rest of their character
	out  []byte // decoded, not yet handed on
	at   int64  // bytes decoded
	err  error
}

func (w *wide) Read(p []byte) (int, error) {
	for len(w.out) == 0 && w.err == nil {
		n, err := w.in.Read(w.raw[w.left:])
		w.decode(w.raw[:w.left+n], err)
	}
	n := copy(p, w.out)
	w.out = w.out[n:]
	if n > 0 || len(p) == 0 {
		return n, nil
	}
	return 0, w.err
}

// decode moves the whole characters of raw to out and keeps the rest.
func (w *wide) decode(raw []byte, err error) {
	unit := func(i int) rune {
		if w.big {
			return rune(raw[i])<<8 | rune(raw[i+1])
		}
		return rune(raw[i+1])<<8 | rune(raw[i])
	}
	w.out = w.out[:0]
	i := 0
	for ; i+2 <= len(raw); i += 2 {
		r := unit(i)
		if utf16.IsSurrogate(r) {
			if i+4 > len(raw) && err == nil {
				break
			}
			if i+4 <= len(raw) {
				r = utf16.DecodeRune(r, unit(i+2))
			}
			if i+4 > len(raw) || r == utf8.RuneError {
				err = fmt.Errorf("byte %d: half a character of UTF-16. Save it as UTF-8", w.at+int64(i))
				break
			}
			i += 2
		}
		w.out = utf8.AppendRune(w.out, r)
	}
	if err == io.EOF && len(raw)-i == 1 {
		err = errors.New("it ends in the middle of a character of UTF-16. Save it as UTF-8")
	}
	w.left = copy(w.raw[:], raw[i:])
	w.at += int64(i)
	w.err = err
}
