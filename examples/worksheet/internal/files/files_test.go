package files

import (
	"bytes"
	"encoding/binary"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/iotest"
	"unicode/utf16"
	"unicode/utf8"
)

func wideText(s string, order binary.AppendByteOrder, mark bool) string {
	var out []byte
	if mark {
		out = order.AppendUint16(out, 0xfeff)
	}
	for _, u := range utf16.Encode([]rune(s)) {
		out = order.AppendUint16(out, u)
	}
	return string(out)
}

func TestEveryEncodingOfAnOfficeGivesTheSameText(t *testing.T) {
	const text = "must: 3 L ± 2 %\nmüde 😀\n"
	for name, c := range map[string]struct {
		in       string
		encoding Encoding
	}{
		"UTF-8":                       {text, UTF8},
		"UTF-8 with a mark":           {"\ufeff" + text, UTF8Marked},
		"UTF-16 LE":                   {wideText(text, binary.LittleEndian, true), UTF16Little},
		"UTF-16 BE":                   {wideText(text, binary.BigEndian, true), UTF16Big},
		"UTF-16 LE without a mark":    {wideText(text, binary.LittleEndian, false), UTF16Little},
		"UTF-16 BE without a mark":    {wideText(text, binary.BigEndian, false), UTF16Big},
		"line ends of old programs":   {strings.ReplaceAll(text, "\n", "\r"), UTF8},
		"UTF-16, line ends of theirs": {wideText(strings.ReplaceAll(text, "\n", "\r"), binary.LittleEndian, true), UTF16Little},
	} {
		got, err := ReadFrom("x", iotest.HalfReader(strings.NewReader(c.in)))
		if err != nil || string(got.Content) != text || got.Encoding != c.encoding {
			t.Errorf("%s: %q, %v, %v", name, got.Content, got.Encoding, err)
		}
		byByte, _, err := Decode(iotest.OneByteReader(strings.NewReader(c.in)))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if all, err := io.ReadAll(byByte); err != nil || strings.ReplaceAll(string(all), "\r", "\n") != text {
			t.Errorf("%s, byte by byte: %q, %v", name, all, err)
		}
	}
}

func TestWindowsTextIsRead(t *testing.T) {
	got, err := ReadFrom("x", strings.NewReader("3 L \xb1 2 %, 1 \x80"))
	if err != nil || string(got.Content) != "3 L ± 2 %, 1 €" || got.Encoding != Windows1252 {
		t.Errorf("%q, %v, %v", got.Content, got.Encoding, err)
	}
}

func TestWhatIsNoTextIsRefusedWithTheWayOut(t *testing.T) {
	for name, c := range map[string]struct{ in, want string }{
		"workbook":        {"PK\x03\x04rest", "save the sheet as CSV"},
		"old workbook":    {"\xd0\xcf\x11\xe0\xa1\xb1", "save the sheet as CSV"},
		"UTF-32":          {"\xff\xfe\x00\x00a\x00\x00\x00", "save it as UTF-8"},
		"zero byte":       {"name\n\x00\n", "line 2"},
		"zero bytes only": {strings.Repeat("\x00", 100), "zero byte"},
		"unassigned byte": {"a\n\xe9\x81", "line 2: the byte 0x81"},
		"mark that lies":  {"\xef\xbb\xbfa\n\xff", "line 2: not UTF-8"},
		"half a pair":     {"\xff\xfea\x00\x3d\xd8a\x00", "half a character"},
		"pair cut off":    {"\xff\xfea\x00\x3d\xd8", "half a character"},
		"odd byte":        {"\xff\xfea\x00b", "middle of a character"},
	} {
		_, err := ReadFrom("cherry.json", strings.NewReader(c.in))
		if err == nil || !strings.Contains(err.Error(), c.want) || !strings.HasPrefix(err.Error(), "cherry.json: ") {
			t.Errorf("%s: %v, wanted %q", name, err, c.want)
		}
	}
}

// A device that never ends is refused after Largest bytes.
func TestEndlessInputIsRefused(t *testing.T) {
	endless := &counting{}
	_, err := ReadFrom("x", endless)
	if err == nil || !strings.Contains(err.Error(), "8 MB") {
		t.Errorf("%v", err)
	}
	if endless.n > 2*Largest {
		t.Errorf("read %d bytes of an endless file", endless.n)
	}
	if _, err := ReadFrom("x", strings.NewReader(strings.Repeat("a", Largest))); err != nil {
		t.Errorf("at the limit: %v", err)
	}
}

type counting struct{ n int }

func (c *counting) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = 'a'
	}
	c.n += len(p)
	return len(p), nil
}

func TestOpen(t *testing.T) {
	if _, name, err := Open("-"); err != nil || name != "standard input" {
		t.Errorf("%q, %v", name, err)
	}
	if _, _, err := Open(t.TempDir()); err == nil || !strings.Contains(err.Error(), "directory") {
		t.Errorf("%v", err)
	}
	if _, err := Read(filepath.Join(t.TempDir(), "none")); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("%v", err)
	}
	if _, err := ReadFrom("x", iotest.ErrReader(io.ErrClosedPipe)); !errors.Is(err, io.ErrClosedPipe) {
		t.Errorf("%v", err)
	}
}

// Whatever the bytes, the text is UTF-8 without zero bytes, or refused.
func FuzzReadFrom(f *testing.F) {
	f.Add([]byte("\xff\xfea\x00"))
	f.Add([]byte("\xb1"))
	f.Fuzz(func(t *testing.T, in []byte) {
		got, err := ReadFrom("x", bytes.NewReader(in))
		if err == nil && (!utf8.Valid(got.Content) || bytes.IndexByte(got.Content, 0) >= 0) {
			t.Errorf("%q is given as text: %q", in, got.Content)
		}
	})
}
