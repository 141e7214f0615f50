// Package rows streams CSV through a function. Every row and every column comes
// out as it came in, byte for byte, with the results behind it; a bad row gets
// its reason and the work goes on. All cores work on lots of rows, which are
// written in order; the memory is bounded, whatever the file holds.
//
// The file keeps its own form: separator, line ends, byte order mark, encoding
// and decimal mark are read off its head. Rows are those of RFC 4180. A row
// whose quotation marks break its rules ends with its line, is written with its
// quotation marks doubled, and has the reason in the column "error".
package rows

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"runtime"
	"sync/atomic"
	"time"
)

// ErrBad marks work that was done but for some rows.
var ErrBad = errors.New("rows with an error")

// A Function is what is done with a row: inputs are found by the names of
// their columns, results are added in order, and behind them a column "error".
type Function struct {
	Name, Answers string
	In            []string
	Out           []Output
	Run           func(in, out []float64) error
	// Caution is what to be careful about in a row that has results, empty for
	// most; rows at once call it. The rows are counted and the first is told on
	// notes: the file keeps its columns. Nil: nothing.
	Caution func(in, out []float64) string
}

// An Output is a result column and the decimal places it is written with.
type Output struct {
	Name   string
	Places int
}

// Out makes an Output.
func Out(name string, places int) Output { return Output{name, places} }

// Added lists the names of the result columns.
func (f Function) Added() []string {
	names := make([]string, len(f.Out))
	for i, o := range f.Out {
		names[i] = o.Name
	}
	return names
}

// Options say what the head of the file does not. Zero values are read off it.
type Options struct {
	Separator byte // between cells
	Decimal   byte // '.' or ','
	BOM       bool // write a byte order mark, also where the file has none
	Guard     bool // put ' before cells that a spreadsheet would execute
}

// LongestRow is the size in bytes up to which a row is read.
const LongestRow = 16 << 20

// interruption is how long an interrupted Stream waits for a write under way.
const interruption = 100 * time.Millisecond

// Stream copies every row and every column from in to out, adding the results.
// Rows come out as soon as they have come in. What a person should know goes to
// notes, a line each, and a count of rows every second where notes is a
// terminal. The error wraps ErrBad where rows had one, and names the first.
//
// When ctx ends, Stream returns within 200 ms, also while it waits for in or
// out. Only whole rows are written, as long as a row has no more than 4096
// bytes, which a pipe takes as a whole. A call of in.Read or out.Write that
// never returns is left behind: that is for a command that ends then.
func (f Function) Stream(ctx context.Context, in io.Reader, out, notes io.Writer, o Options) error {
	s := &stream{Function: f, Options: o, notes: notes, quit: make(chan struct{}),
		lots: make(chan *lot, 2*runtime.GOMAXPROCS(0)), order: make(chan *lot, 2*runtime.GOMAXPROCS(0)), freed: make(chan struct{}, 1)}
	done := make(chan error, 1)
	go func() { done <- s.run(in, out) }()
	select {
	case err := <-done:
		return err
	case <-ctx.Done():
	}
	close(s.quit)
	select {
	case <-done:
	case <-time.After(interruption):
	}
	return fmt.Errorf("interrupted after %d rows", s.written.Load())
}

// A stream is one Stream under way. One goroutine reads lots and puts them on
// lots and order; workers take them from lots; one goroutine takes them from
// order and writes what the workers made of them.
type stream struct {
	Function
	Options
	notes       io.Writer
	quit        chan struct{}
	lots, order chan *lot
	readErr     error         // set before order is closed
	inFlight    atomic.Int64  // bytes of the lots between reader and writer
	freed       chan struct{} // has a value when inFlight has shrunk
	written     atomic.Int64  // rows
}

// pieces are written with one call each: a pipe takes so many bytes as a whole
// or not at all (PIPE_BUF of Linux), so that an interruption cuts no row.
const pieceSize = 4096

func (s *stream) run(in io.Reader, out io.Writer) error {
	ended := make(chan struct{}) // the writer has given up or finished
	defer close(ended)
	for range runtime.GOMAXPROCS(0) {
		go func() {
			for l := range s.lots {
				l.done <- l.worker.work(l)
			}
		}()
	}
	go func() {
		defer close(s.order)
		defer close(s.lots)
		s.readErr = s.read(in, ended)
	}()
	return s.write(out)
}

func (s *stream) write(out io.Writer) error {
	var t tally
	last := time.Now()
	for {
		var l *lot
		select {
		case l = <-s.order:
		case <-s.quit:
			return nil
		}
		if l == nil {
			break
		}
		got := <-l.done
		if t.expected += l.rows; got.rows != l.rows {
			return fmt.Errorf("rows %d to %d: %d were read and %d worked on: please report this", l.row, l.row+l.rows-1, l.rows, got.rows)
		}
		if err := s.put(out, got); err != nil {
			return err
		}
		t.add(l, got)
		s.release(l)
		recycle(got)
		if time.Since(last) > time.Second && terminal(s.notes) {
			fmt.Fprintf(s.notes, "\r%d rows", t.data)
			last = time.Now()
		}
	}
	return t.result(s)
}

// put writes the pieces, whole rows each.
func (s *stream) put(out io.Writer, got result) error {
	from := 0
	for i, to := range append(got.cuts, len(got.text)) {
		select {
		case <-s.quit:
			return nil
		default:
		}
		if to > from {
			if _, err := out.Write(got.text[from:to]); err != nil {
				return err
			}
		}
		from = to
		if i < len(got.rowsAt) {
			s.written.Add(int64(got.rowsAt[i]))
		}
	}
	return nil
}

func terminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}
