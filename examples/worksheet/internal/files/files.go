// Package files reads the small text files of the command: from a path or from
// standard input, up to a stated size, in the encodings that office programs,
// editors and shells write. What it cannot read it refuses with the reason and
// the way out.
package files

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"unicode/utf8"
)

// Largest is the size in bytes up to which a whole file is read.
const Largest = 8 << 20

// A Text is the content of a file as UTF-8 without a byte order mark.
type Text struct {
	Name     string // the path, or "standard input"
	Content  []byte
	Encoding Encoding // that it had
}

// Open opens the path, or standard input where it is "-". Name is how errors
// call it.
func Open(path string) (in io.ReadCloser, name string, err error) {
	if path == "-" {
		return io.NopCloser(os.Stdin), "standard input", nil
	}
	file, err := os.Open(path)
	if err != nil {
		return nil, path, err
	}
	if info, err := file.Stat(); err == nil && info.IsDir() {
		_ = file.Close()
		return nil, path, fmt.Errorf("%s is a directory; a file is needed", path)
	}
	return file, path, nil
}

// Read returns the whole text of the path, or of standard input where it is
// "-". The error names the file and says why it cannot be read.
func Read(path string) (Text, error) {
	in, name, err := Open(path)
	if err != nil {
		return Text{Name: name}, err
	}
	defer in.Close()
	return ReadFrom(name, in)
}

// ReadFrom is Read for an open file.
func ReadFrom(name string, in io.Reader) (Text, error) {
	t := Text{Name: name}
	raw, err := io.ReadAll(Bounded(in))
	if err != nil {
		return t, fmt.Errorf("%s: %w", name, err)
	}
	t.Content, t.Encoding, err = decoded(raw)
	if err != nil {
		return t, fmt.Errorf("%s: %w", name, err)
	}
	if !bytes.Contains(t.Content, []byte("\n")) { // the line ends of old programs
		t.Content = bytes.ReplaceAll(t.Content, []byte("\r"), []byte("\n"))
	}
	return t, nil
}

// Bounded reads up to Largest; that there is more is an error.
func Bounded(in io.Reader) io.Reader { return &bounded{in, Largest} }

type bounded struct {
	io.Reader
	left int
}

func (b *bounded) Read(p []byte) (int, error) {
	n, err := b.Reader.Read(p[:min(len(p), b.left+1)])
	if b.left -= n; b.left < 0 {
		return 0, fmt.Errorf("longer than %d MB, the most that is read here: is it the right file?", Largest>>20)
	}
	return n, err
}

func decoded(raw []byte) ([]byte, Encoding, error) {
	in, encoding, err := Decode(bytes.NewReader(raw))
	if err != nil {
		return nil, encoding, err
	}
	content, err := io.ReadAll(in)
	if err != nil {
		return nil, encoding, err
	}
	if at := bytes.IndexByte(content, 0); at >= 0 {
		line := 1 + bytes.Count(content[:at], []byte("\n"))
		return nil, encoding, fmt.Errorf("line %d holds a zero byte: it is no text. Save it as text in UTF-8", line)
	}
	if utf8.Valid(content) {
		return content, encoding, nil
	}
	if encoding != UTF8 { // a byte order mark says UTF-8 and the text is not
		return nil, encoding, fmt.Errorf("line %d: not UTF-8, although its byte order mark says so. Save it as UTF-8", badLine(content))
	}
	content, err = windows1252(content)
	return content, Windows1252, err
}

func badLine(content []byte) int {
	at := 0
	for at < len(content) {
		r, n := utf8.DecodeRune(content[at:])
		if r == utf8.RuneError && n < 2 {
			break
		}
		at += n
	}
	return 1 + bytes.Count(content[:at], []byte("\n"))
}

// The characters of Windows-1252 from 80 to 9F (Unicode Consortium, mapping
// table cp1252); zero is not assigned. The others have their byte's number.
var upper = [32]rune{
	'€', 0, '‚', 'ƒ', '„', '…', '†', '‡', 'ˆ', '‰', 'Š', '‹', 'Œ', 0, 'Ž', 0,
	0, '‘', '’', '“', '”', '•', '–', '—', '˜', '™', 'š', '›', 'œ', 0, 'ž', 'Ÿ',
}

func windows1252(content []byte) ([]byte, error) {
	out := make([]byte, 0, len(content)+len(content)/8)
	for i, b := range content {
		r := rune(b)
		if b >= 0x80 && b < 0xa0 {
			if r = upper[b-0x80]; r == 0 {
				return nil, fmt.Errorf("line %d: the byte %#x is neither UTF-8 nor Windows-1252. Save it as UTF-8", 1+bytes.Count(content[:i], []byte("\n")), b)
			}
		}
		out = utf8.AppendRune(out, r)
	}
	return out, nil
}

var errWorkbook = errors.New("a workbook or an archive, not text: open it in its program and save the sheet as CSV in UTF-8")
