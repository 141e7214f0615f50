package rows

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"sync"

	"example.org/mutage/examples/worksheet/internal/files"
)

const (
	bufferSize  = 1 << 16
	lotSize     = 1 << 16 // bytes of rows in a lot, one row more at most
	mostFlying  = 1 << 20 // bytes between reader and writer, or one lot
	largeBuffer = 1 << 18 // is not kept for the next lot
)

// A lot is a number of rows on their way from reader to writer.
type lot struct {
	data      []byte
	row, line int // of its first row, as an editor counts from 1
	rows      int
	mark      byte // decimal
	worker    *worker
	done      chan result
}

var buffers = sync.Pool{New: func() any { return new([bufferSize]byte) }}

// reading is the state of the one goroutine that reads.
type reading struct {
	*stream
	worker    *worker
	mark      byte
	row, line int
	ended     <-chan struct{}
}

var errStopped = errors.New("stopped")

// read sends all rows of in as lots, each as soon as it has come in.
func (s *stream) read(in io.Reader, ended <-chan struct{}) error {
	text, encoding, err := files.Decode(in)
	if err != nil {
		return fmt.Errorf("column %s: %w", s.Name, err)
	}
	r := &reading{stream: s, ended: ended, row: 1, line: 1}
	buf, n := buffers.Get().(*[bufferSize]byte)[:], 0
	for {
		if n == len(buf) {
			buf = r.grown(buf)
		}
		k, readErr := text.Read(buf[n:])
		whole, ended := readErr == io.EOF, bytes.IndexByte(buf[n:n+k], '\n') >= 0
		n += k
		if r.worker == nil {
			used, err := r.begin(buf[:n], whole, encoding)
			if err != nil && err != errMore {
				return err
			}
			ended, n = true, copy(buf, buf[used:n])
		}
		if r.worker != nil && (ended || whole || n > LongestRow || r.worker.eol == '\r') {
			if buf, n, err = r.rows(buf, n, whole); err != nil {
				return err
			}
		}
		if whole {
			return nil
		}
		if readErr != nil {
			return r.lost(readErr)
		}
	}
}

func (r *reading) lost(err error) error {
	if r.worker == nil {
		return err
	}
	return fmt.Errorf("behind row %d: %w", r.row-1, err)
}

// begin reads the head and sends it on as the first lot.
func (r *reading) begin(b []byte, whole bool, encoding files.Encoding) (used int, err error) {
	h, err := r.head(b, whole)
	if err != nil {
		return 0, err
	}
	mark := r.BOM || encoding != files.UTF8
	if r.BOM && encoding == files.UTF8 && !valid(b) {
		return 0, fmt.Errorf("column %s: -bom marks text as UTF-8, and this file is not: save it as UTF-8, or leave -bom out", r.Name)
	}
	if encoding == files.UTF16Little || encoding == files.UTF16Big {
		h.notes = append(h.notes, fmt.Sprintf("the file is %s; it is written as %s", encoding, files.UTF8Marked))
	}
	for _, note := range h.notes {
		fmt.Fprintf(r.notes, "column %s: note: %s\n", r.Name, note)
	}
	text := h.text
	if mark {
		text = append([]byte("\ufeff"), text...)
	}
	r.worker = &worker{Function: r.Function, head: h, guard: r.Guard}
	r.line = 1 + h.lines
	r.row = r.line
	first := &lot{done: make(chan result, 1)}
	first.done <- result{text: text}
	select {
	case r.order <- first:
	case <-r.ended:
	}
	return h.bytes, nil
}

// rows sends the whole rows at the start of buf and returns a buffer that
// starts with the rest.
func (r *reading) rows(buf []byte, n int, whole bool) ([]byte, int, error) {
	for {
		h := r.worker.head
		size, rows, lines := h.complete(buf[:n], whole, lotSize)
		if size == 0 && n > LongestRow {
			var first record
			h.scan(buf[:n], true, &first)
			if size, rows = first.end, 1; size == n {
				return nil, 0, fmt.Errorf("column %s: row %d, line %d, is longer than %d MB: is it a table?", r.Name, r.row, r.line, LongestRow>>20)
			}
			lines = bytes.Count(buf[:size], []byte{h.eol})
		}
		if size == 0 {
			return buf, n, nil
		}
		if r.mark == 0 {
			r.mark = r.stream.mark(h, buf[:size])
		}
		rest := buffers.Get().(*[bufferSize]byte)[:]
		if n-size >= len(rest) {
			rest = make([]byte, n-size+bufferSize)
		}
		left := copy(rest, buf[size:n])
		if !r.send(&lot{data: buf[:size], row: r.row, line: r.line, rows: rows, mark: cmp.Or(r.mark, '.'), worker: r.worker, done: make(chan result, 1)}) {
			return nil, 0, errStopped
		}
		r.row, r.line = r.row+rows, r.line+lines
		buf, n = rest, left
	}
}

// send waits until there is room for the lot.
func (r *reading) send(l *lot) bool {
	size := int64(cap(l.data))
	for r.inFlight.Load() > 0 && r.inFlight.Load()+size > mostFlying {
		select {
		case <-r.freed:
		case <-r.ended:
			return false
		}
	}
	r.inFlight.Add(size)
	select {
	case r.order <- l:
	case <-r.ended:
		return false
	}
	r.lots <- l // never more than order holds
	return true
}

// release gives back the room and the buffer of a lot that was written.
func (s *stream) release(l *lot) {
	s.inFlight.Add(-int64(cap(l.data)))
	select {
	case s.freed <- struct{}{}:
	default:
	}
	if cap(l.data) == bufferSize {
		buffers.Put((*[bufferSize]byte)(l.data[:bufferSize]))
	}
	l.data = nil
}

// grown is a larger buffer, for a row that is longer than this one.
func (r *reading) grown(buf []byte) []byte {
	larger := make([]byte, min(2*len(buf), LongestRow+bufferSize))
	copy(larger, buf)
	return larger
}
