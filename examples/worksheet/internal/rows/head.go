package rows

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"
)

// The header is looked for in so many lines and bytes, below titles, comments
// and empty lines.
const (
	headLines = 20
	headBytes = 1 << 16
)

// A head is what stands before the first row: the form of the file and where
// its columns are.
type head struct {
	form
	bytes, lines int
	names        []string // of all columns
	at           []int    // columns of the inputs
	text         []byte   // as it is written
	end          string   // of a line that has none
	notes        []string
}

// errMore says that the head has not come in yet.
var errMore = errors.New("the head goes on")

// head reads the head off the start of the file. The error is errMore, or says
// what the file lacks.
func (s *stream) head(b []byte, whole bool) (*head, error) {
	if len(b) == 0 && whole {
		return nil, errors.New("empty input: a header line is needed")
	}
	whole = whole || len(b) > LongestRow
	h := &head{form: form{comma: s.Separator, eol: '\n'}}
	if bytes.IndexByte(b, '\n') < 0 {
		if !whole && len(b) < headBytes {
			return nil, errMore
		}
		if bytes.IndexByte(b, '\r') >= 0 {
			h.eol = '\r'
		}
	}
	if line, _, _ := bytes.Cut(b[:min(len(b), headBytes)], []byte{h.eol}); bytes.IndexByte(line, 0) >= 0 {
		return nil, errors.New("it starts with zero bytes, so it is no text. Save it as CSV in UTF-8")
	}
	var first error
	for h.lines < headLines && h.bytes < min(len(b), headBytes) {
		k := bytes.IndexByte(b[h.bytes:], h.eol) + 1
		if k == 0 && !whole {
			return nil, errMore
		}
		if k == 0 {
			k = len(b) - h.bytes
		}
		text := bytes.TrimRight(b[h.bytes:h.bytes+k], "\r\n")
		if c, ok := separatorLine(text); ok && h.lines == 0 {
			h.comma = cmp.Or(h.comma, c)
		} else if len(text) > 0 {
			err := s.header(h, b, whole)
			if part := (*partError)(nil); err == nil || err == errMore || errors.As(err, &part) {
				return h, err
			}
			if first == nil {
				first = err
			}
		}
		h.bytes, h.lines = h.bytes+k, h.lines+1
	}
	if h.lines < headLines && len(b) < headBytes && !whole {
		return nil, errMore // so far a title: the header may follow
	}
	if first == nil {
		first = fmt.Errorf("column %s: no header line; it reads %s", s.Name, strings.Join(s.In, ", "))
	}
	return nil, first
}

// separatorLine reads "sep=;", which spreadsheets take for the separator.
func separatorLine(line []byte) (byte, bool) {
	line = bytes.Trim(line, `"`)
	if len(line) == 5 && bytes.EqualFold(line[:4], []byte("sep=")) && Separates(line[4]) {
		return line[4], true
	}
	return 0, false
}

// Separates says whether c can stand between cells.
func Separates(c byte) bool {
	return c == '\t' || c >= ' ' && c < 0x7f && !strings.ContainsRune(`"'+-_#`, rune(c)) &&
		(c < '0' || c > '9') && (c|0x20 < 'a' || c|0x20 > 'z')
}

// A partError is of a line that is the header, as it has some of the columns.
type partError struct{ error }

// header reads the next line as the header, with each separator that it may
// have.
func (s *stream) header(h *head, b []byte, whole bool) error {
	line := b[h.bytes:]
	text, _, _ := bytes.Cut(line, []byte{h.eol})
	commas := []byte{h.comma}
	if h.comma == 0 {
		commas = []byte{',', ';', '\t'}
		slices.SortStableFunc(commas, func(a, b byte) int {
			return bytes.Count(text, []byte{b}) - bytes.Count(text, []byte{a})
		})
	}
	var best error
	for _, c := range commas {
		f := form{comma: c, eol: h.eol}
		var r record
		if !f.scan(line, whole, &r) {
			return errMore
		}
		names := make([]string, len(r.cells))
		for i, cell := range r.cells {
			names[i] = string(unquoted(line[cell.from:cell.to], cell.bad))
		}
		at, err := s.find(names)
		if err == nil && r.bad {
			err = &partError{fmt.Errorf("column %s: line %d, the header: a quotation mark is not closed", s.Name, h.lines+1)}
		}
		if err == nil {
			h.comma, h.names, h.at = c, names, at
			s.take(h, b[:h.bytes+r.end], &r)
			return nil
		}
		var part *partError
		if best == nil || errors.As(err, &part) && !errors.As(best, &part) {
			best = err
		}
	}
	return best
}

// find looks for the columns that the function reads.
func (s *stream) find(names []string) (at []int, err error) {
	var missing []string
	for _, want := range s.In {
		found := -1
		for i, name := range names {
			if !strings.EqualFold(strings.TrimSpace(name), want) {
				continue
			}
			if found >= 0 {
				return nil, &partError{fmt.Errorf("column %s: columns %d and %d are both named %q: rename one of them", s.Name, found+1, i+1, want)}
			}
			found = i
		}
		if found < 0 {
			missing = append(missing, fmt.Sprintf("%q", want))
		}
		at = append(at, found)
	}
	if len(missing) == 0 {
		return at, nil
	}
	has := strings.Join(names, ", ")
	if clean := fmt.Sprintf("%q", has); len(clean) != len(has)+2 || len(has) > 200 {
		has = fmt.Sprintf("%.200q", has)
	}
	err = fmt.Errorf("column %s: no column %s; it reads %s, the header has %s", s.Name, strings.Join(missing, ", "), strings.Join(s.In, ", "), has)
	if len(missing) < len(s.In) {
		return nil, &partError{err}
	}
	return nil, err
}

// take settles the head, which ends with the header r.
func (s *stream) take(h *head, b []byte, r *record) {
	line := b[h.bytes:]
	h.end = "\n"
	if r.end > r.to {
		h.end = string(line[r.to:r.end])
	}
	w := &worker{Function: s.Function, head: h, guard: s.Guard}
	var above record
	for n := 0; n < h.bytes && h.scan(b[n:h.bytes], true, &above); n += above.end {
		h.text = w.copied(h.text, b[n:n+above.end], &above)
		h.text = append(h.text, b[n+above.to:n+above.end]...)
	}
	if h.lines > 0 {
		h.notes = append(h.notes, fmt.Sprintf("the header is line %d; what stands above it is copied", h.lines+1))
	}
	h.text = w.copied(h.text, line, r)
	taken := make([]string, 0, len(h.names)+len(s.Out)+1)
	for _, name := range h.names {
		taken = append(taken, strings.ToLower(strings.TrimSpace(name)))
	}
	for _, name := range append(s.Added(), "error") {
		is := name
		for slices.Contains(taken, is) {
			is += "_result"
		}
		if is != name {
			h.notes = append(h.notes, fmt.Sprintf("there is a column %q already: the result is in %q", name, is))
		}
		taken = append(taken, is)
		h.text = append(append(h.text, h.comma), is...)
	}
	h.text = append(h.text, h.end...)
	h.bytes, h.lines = h.bytes+r.end, h.lines+bytes.Count(line, []byte{h.eol})
}

// unquoted is what a cell says.
func unquoted(cell []byte, bad bool) []byte {
	if bad || len(cell) < 2 || cell[0] != '"' {
		return cell
	}
	return bytes.ReplaceAll(cell[1:len(cell)-1], []byte(`""`), []byte(`"`))
}

// mark finds the decimal mark: the one given, or that of the first input cell
// which shows it for certain; points that may be either are points, as a
// gravity of 1.092. Where no cell shows any, files with semicolons have commas.
// It is zero where there is no row to look at.
func (s *stream) mark(h *head, b []byte) byte {
	if s.Decimal != 0 {
		return s.Decimal
	}
	var points, rows int
	var r record
	for n := 0; n < len(b) && n < headBytes && h.scan(b[n:], true, &r); n += r.end {
		row := b[n : n+r.end]
		if r.bad || h.comment(row, &r) {
			continue
		}
		for _, i := range h.at {
			if i >= len(r.cells) {
				continue
			}
			cell := row[r.cells[i].from:r.cells[i].to]
			m, w := evidence(cell)
			if len(bytes.TrimSpace(cell)) > 0 {
				rows++
			}
			if w == strong {
				return m
			}
			if m == '.' {
				points++
			}
		}
	}
	switch {
	case rows == 0:
		return 0
	case points == 0 && h.comma == ';':
		return ','
	}
	return '.'
}

// comment says whether the row is empty or begins with # and has not the cells
// of a row.
func (h *head) comment(row []byte, r *record) bool {
	return r.to == 0 || row[0] == '#' && len(r.cells) != len(h.names)
}

func valid(b []byte) bool {
	for i := 0; i < 3 && !utf8.Valid(b); i++ { // the last character may be cut
		b = b[:max(0, len(b)-1)]
	}
	return utf8.Valid(b)
}
