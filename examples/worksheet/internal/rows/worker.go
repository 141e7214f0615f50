package rows

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
	"sync"
)

// A worker turns rows into rows with results. It is shared by all goroutines
// and does not change.
type worker struct {
	Function
	*head
	guard bool
}

// A result is what became of a lot.
type result struct {
	text   []byte
	cuts   []int // where text may be cut: whole rows, small pieces
	rowsAt []int // rows in the piece before each cut, and in the last
	rows   int   // all that the lot held
	data   int   // without empty rows and comments
	bad    int
	remark int   // comments
	first  fault // of the bad rows

	doubtful      int   // with a caution
	firstDoubtful fault // of those
}

// A fault is a bad row and why it is bad; row and line count from the lot's.
type fault struct {
	row, line int
	why       string
}

// A desk is what one goroutine writes on.
type desk struct {
	record
	in, out []float64
	caution string // of the row
}

var texts = sync.Pool{New: func() any { return new([]byte) }}

func recycle(r result) {
	if cap(r.text) > 0 && cap(r.text) <= largeBuffer {
		texts.Put(&r.text)
	}
}

// work works on all rows of the lot.
func (w *worker) work(l *lot) (r result) {
	d := desk{in: make([]float64, len(w.at)), out: make([]float64, len(w.Out))}
	r.text = (*texts.Get().(*[]byte))[:0]
	if len(l.data) > cap(r.text) {
		r.text = make([]byte, 0, len(l.data)+len(l.data)/4+w.widest(l.rows))
	}
	line, cut, since := 0, 0, 0
	for n := 0; n < len(l.data); n += d.end {
		w.scan(l.data[n:], true, &d.record)
		before := len(r.text)
		why := w.row(&r, l.data[n:n+d.end], l.mark, &d)
		if why != "" && r.bad == 0 {
			r.first = fault{r.rows, line, why}
		}
		if why != "" {
			r.bad++
		}
		if d.caution != "" {
			if r.doubtful == 0 {
				r.firstDoubtful = fault{r.rows, line, d.caution}
			}
			r.doubtful++
		}
		line += bytes.Count(l.data[n:n+d.end], []byte{w.eol})
		if len(r.text)-cut > pieceSize && before > cut {
			r.cuts, r.rowsAt = append(r.cuts, before), append(r.rowsAt, r.rows-since)
			cut, since = before, r.rows
		}
		r.rows++
	}
	r.rowsAt = append(r.rowsAt, r.rows-since)
	return r
}

// widest is about how much is added to so many rows.
func (w *worker) widest(rows int) int { return rows * (16*len(w.Out) + 32) }

// row writes one row and says why it has no results, if it has none.
func (w *worker) row(r *result, row []byte, mark byte, d *desk) (why string) {
	d.caution = ""
	if w.comment(row, &d.record) {
		if d.to > 0 {
			r.remark++
		}
		r.text = append(w.copied(r.text, row, &d.record), w.ending(row, d)...)
		return ""
	}
	empty := w.empty(row, d)
	if !empty {
		r.data++
		why = w.results(row, mark, d)
	}
	b := w.copied(r.text, row, &d.record)
	for i := len(d.cells); i < len(w.names); i++ { // so that results stand under their heading
		b = append(b, w.comma)
	}
	for i, o := range w.Out {
		b = append(b, w.comma)
		if why != "" || empty {
			continue
		}
		if mark == w.comma {
			b = append(appendFixed(append(b, '"'), d.out[i], o.Places, mark), '"')
		} else {
			b = appendFixed(b, d.out[i], o.Places, mark)
		}
	}
	b = append(b, w.comma)
	if why != "" {
		b = quoted(w, b, why)
	}
	r.text = append(b, w.ending(row, d)...)
	return why
}

// results fills d.out, or says why not.
func (w *worker) results(row []byte, mark byte, d *desk) (why string) {
	for i, c := range d.cells {
		if c.bad {
			return fmt.Sprintf("%s: a quotation mark opens in %s and is not closed, or not doubled", w.name(i), shown(row[c.from:c.to]))
		}
	}
	if len(d.cells) > len(w.names) {
		return fmt.Sprintf("%d cells, the header has %d", len(d.cells), len(w.names))
	}
	for k, i := range w.at {
		var cell []byte
		if i < len(d.cells) {
			cell = row[d.cells[i].from:d.cells[i].to]
		}
		var err error
		if d.in[k], err = number(cell, mark); err == errEmpty {
			return w.In[k] + " " + err.Error()
		} else if err != nil {
			return fmt.Sprintf("%s: %s %v", w.In[k], shown(bare(cell)), err)
		}
	}
	if n := w.swallowed(row, mark, d); n > 0 {
		return fmt.Sprintf("a quoted cell holds %d more lines that look like rows: is a quotation mark missing?", n)
	}
	if err := w.Run(d.in, d.out); err != nil {
		return err.Error()
	}
	for i, x := range d.out {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return fmt.Sprintf("%s has no finite value", w.Out[i].Name)
		}
	}
	if w.Caution != nil {
		d.caution = w.Caution(d.in, d.out)
	}
	return ""
}

// swallowed counts the lines within quoted cells that have the cells of a row
// and numbers where a row has them: quotation marks of two rows make a pair.
func (w *worker) swallowed(row []byte, mark byte, d *desk) (n int) {
	if bytes.IndexByte(row[:d.to], w.eol) < 0 {
		return 0
	}
	var r record
	for _, c := range d.cells {
		rest := row[c.from:c.to]
		k := bytes.IndexByte(rest, w.eol) + 1
		if k == 0 {
			continue
		}
		for rest = rest[k : len(rest)-1]; len(rest) > 0; rest = rest[r.end:] {
			if w.scan(rest, true, &r); w.like(rest, mark, &r) {
				n++
			}
		}
	}
	return n
}

// like says whether the line could be a row of the file.
func (w *worker) like(line []byte, mark byte, r *record) bool {
	if len(r.cells) != len(w.names) {
		return false
	}
	for _, i := range w.at {
		if _, err := number(line[r.cells[i].from:r.cells[i].to], mark); err != nil {
			return false
		}
	}
	return true
}

func (w *worker) name(i int) string {
	if i < len(w.names) && w.names[i] != "" {
		return "column " + shown([]byte(w.names[i]))
	}
	return fmt.Sprintf("column %d", i+1)
}

// empty says whether no cell holds anything.
func (w *worker) empty(row []byte, d *desk) bool {
	for _, c := range d.cells {
		if len(bytes.TrimSpace(row[c.from:c.to])) > 0 {
			return false
		}
	}
	return true
}

func (w *worker) ending(row []byte, d *desk) []byte {
	if d.end > d.to {
		return row[d.to:d.end]
	}
	return []byte(w.head.end)
}

// shown is a cell as an error names it: short, without control characters.
func shown(cell []byte) string {
	if len(cell) > 40 {
		return strconv.Quote(string(cell[:40]) + "...")
	}
	return strconv.Quote(string(cell))
}

// copied appends the cells as they came. Those with bad quotation marks are
// quoted, and those that a spreadsheet would execute get ' where that is asked.
func (w *worker) copied(b, row []byte, r *record) []byte {
	if !r.bad && !w.guard {
		return append(b, row[:r.to]...)
	}
	for i, c := range r.cells {
		if i > 0 {
			b = append(b, w.comma)
		}
		cell := row[c.from:c.to]
		switch {
		case c.bad:
			b = quoted(w, b, cell)
		case w.guard && executed(unquoted(cell, false)):
			if cell[0] == '"' {
				b, cell = append(b, '"'), cell[1:]
			}
			b = append(append(b, '\''), cell...)
		default:
			b = append(b, cell...)
		}
	}
	return b
}

// executed says whether a spreadsheet takes the text for a formula. A number
// with a sign is none.
func executed(text []byte) bool {
	if len(text) == 0 || !bytes.ContainsRune([]byte("=+-@\t\r\n"), rune(text[0])) {
		return false
	}
	if _, err := number(text, '.'); err == nil {
		return false
	}
	_, err := number(text, ',')
	return err != nil
}

// quoted appends text as one cell.
func quoted[T string | []byte](w *worker, b []byte, text T) []byte {
	from := len(b)
	b = append(b, text...)
	if bytes.IndexByte(b[from:], w.comma) < 0 && !bytes.ContainsAny(b[from:], "\"\r\n") {
		return b
	}
	b = append(b[:from], '"')
	for i := range len(text) {
		if text[i] == '"' {
			b = append(b, '"')
		}
		b = append(b, text[i])
	}
	return append(b, '"')
}
