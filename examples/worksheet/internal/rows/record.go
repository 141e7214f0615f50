package rows

import "bytes"

// A form is how the file is written, as far as rows and cells go.
type form struct {
	comma byte
	eol   byte // '\n', also for "\r\n"; '\r' in files of old programs
}

// A span is where a cell stands in its row, quotation marks included. It is
// bad where the marks break the rules: then they are letters like any other,
// and the cell ends at the next separator.
type span struct {
	from, to int
	bad      bool
}

// A record is one row: its cells, its length without and with its line end.
type record struct {
	cells   []span
	to, end int
	bad     bool
}

// scan finds the row at the start of b. It is false where more bytes are
// needed, never when b is whole: all there is to come, or more than a row may
// have. A quotation mark that is not closed then ends with its line.
func (f form) scan(b []byte, whole bool, r *record) bool {
	r.cells, r.bad = r.cells[:0], false
	for i := 0; ; i++ {
		to, bad, quoted := i, false, i < len(b) && b[i] == '"'
		if quoted {
			end, closed, known := f.closing(b, i, whole)
			if !known {
				return false
			}
			if to, bad = end, !closed; bad {
				to = i
			}
		}
		if !quoted || bad {
			to = f.plain(b, to)
			if to == len(b) && !whole {
				return false
			}
			if f.eol == '\n' && to > i && b[to-1] == '\r' && (to == len(b) || b[to] == '\n') {
				to--
			}
		}
		r.cells = append(r.cells, span{i, to, bad})
		r.bad = r.bad || bad
		if to < len(b) && b[to] == f.comma {
			i = to
			continue
		}
		r.to, r.end = to, to
		if r.end < len(b) && b[r.end] == '\r' && f.eol == '\n' {
			r.end++
		}
		if r.end < len(b) && b[r.end] == f.eol {
			r.end++
		}
		return true
	}
}

// plain is where a cell without quotation marks ends.
func (f form) plain(b []byte, from int) int {
	near := b[from:min(len(b), from+64)]
	for i, c := range near {
		if c == f.comma || c == f.eol {
			return from + i
		}
	}
	from += len(near)
	if end := bytes.IndexByte(b[from:], f.eol); end >= 0 {
		b = b[:from+end]
	}
	if end := bytes.IndexByte(b[from:], f.comma); end >= 0 {
		return from + end
	}
	return len(b)
}

// closing finds the end of the quoted cell that starts at i. It is not known
// where more bytes decide.
func (f form) closing(b []byte, i int, whole bool) (end int, closed, known bool) {
	for at := i + 1; ; {
		k := bytes.IndexByte(b[at:], '"')
		if k < 0 {
			return 0, false, whole
		}
		end := at + k + 1
		if end == len(b) {
			return end, true, whole
		}
		switch b[end] {
		case '"':
			at = end + 1
			continue
		case f.comma, f.eol:
			return end, true, true
		case '\r':
			if f.eol == '\n' && end+1 == len(b) {
				return end, true, whole
			}
			if f.eol == '\n' && b[end+1] == '\n' {
				return end, true, true
			}
		}
		return 0, false, true
	}
}

// complete is how many bytes of whole rows stand at the start of b, about most
// of them where there are more, and how many rows and lines they are.
func (f form) complete(b []byte, whole bool, most int) (n, rows, lines int) {
	quote := bytes.IndexByte(b, '"')
	if quote < 0 && !whole && len(b) <= most {
		n = bytes.LastIndexByte(b, f.eol) + 1
		rows = bytes.Count(b[:n], []byte{f.eol})
		return n, rows, rows
	}
	var r record
	for n < len(b) && n < most {
		if quote >= 0 && quote < n {
			if quote = bytes.IndexByte(b[n:], '"'); quote >= 0 {
				quote += n
			}
		}
		if k := bytes.IndexByte(b[n:], f.eol) + 1; k > 0 && (quote < 0 || quote >= n+k) {
			n, rows, lines = n+k, rows+1, lines+1
			continue
		}
		if !f.scan(b[n:], whole, &r) {
			break
		}
		lines += bytes.Count(b[n:n+r.end], []byte{f.eol})
		n, rows = n+r.end, rows+1
	}
	return n, rows, lines
}
