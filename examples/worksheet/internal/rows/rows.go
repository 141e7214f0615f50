// Package rows streams CSV through a function: every row and every column is
// kept, results are added, a bad row gets its reason and the work goes on. Lots
// of rows are worked on by all cores and written in order; memory is bounded.
package rows

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"
	"runtime"
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

// LongestRow in bytes: more in one row is a quotation mark that was not closed.
const LongestRow = 32 << 20

const batchRows = 512

// A lot is a number of rows on their way from reader to writer.
type lot struct {
	rows [][]string
	done chan result
}

type result struct {
	text []byte
	bad  int
}

// Stream copies every row and every column from in to out, adding the results.
// Each lot is written whole, so that an interruption (a value on stop) leaves
// whole lines; progress gets a line a second where it is a terminal. The error
// wraps ErrBad where rows had one. Separator (comma, semicolon, tab), byte order
// mark, line ends and decimal commas are read off the input and kept.
func (f Function) Stream(in io.Reader, out, progress io.Writer, stop <-chan os.Signal) error {
	guard := &guarded{in: in}
	text := newText(guard)
	form, err := sniff(text)
	if err != nil {
		return err
	}
	r := csv.NewReader(text)
	r.Comma, r.LazyQuotes, r.FieldsPerRecord = form.comma, true, -1
	header, err := r.Read()
	if err != nil {
		return fmt.Errorf("column %s: no header line: %w", f.Name, err)
	}
	w, err := f.plan(header, form)
	if err != nil {
		return err
	}
	if _, err := out.Write(w.header(header)); err != nil {
		return err
	}
	lots := make(chan lot, 2*runtime.GOMAXPROCS(0))
	order := make(chan lot, cap(lots))
	for range runtime.GOMAXPROCS(0) {
		go func() {
			for l := range lots {
				l.done <- w.work(l.rows)
			}
		}()
	}
	var readErr error
	quit := make(chan struct{})
	go func() {
		defer close(order)
		defer close(lots)
		rows := make([][]string, 0, batchRows)
		send := func() bool {
			l := lot{rows, make(chan result, 1)}
			rows = make([][]string, 0, batchRows)
			select {
			case order <- l:
				lots <- l
				return true
			case <-quit:
				return false
			}
		}
		for {
			row, err := r.Read()
			guard.read = 0
			if row != nil {
				if rows = append(rows, row); len(rows) == batchRows && !send() {
					return
				}
			}
			if err == io.EOF || err != nil && row == nil {
				if err != io.EOF {
					readErr = err
				}
				break
			}
		}
		if len(rows) > 0 {
			send()
		}
	}()
	return f.write(out, progress, order, quit, stop, &readErr)
}

func (f Function) write(out, progress io.Writer, order <-chan lot, quit chan struct{}, stop <-chan os.Signal, readErr *error) error {
	defer close(quit)
	bad, done, last := 0, 0, time.Now()
	for l := range order {
		got := <-l.done
		if _, err := out.Write(got.text); err != nil {
			return err
		}
		bad, done = bad+got.bad, done+len(l.rows)
		select {
		case <-stop:
			return fmt.Errorf("interrupted after %d rows", done)
		default:
		}
		if time.Since(last) > time.Second && terminal(progress) {
			fmt.Fprintf(progress, "\r%d rows", done)
			last = time.Now()
		}
	}
	if *readErr != nil {
		return fmt.Errorf("after %d rows: %w", done, *readErr)
	}
	if bad > 0 {
		return fmt.Errorf("%w: %d of %d, see the column error", ErrBad, bad, done)
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

// guarded refuses a row without end before it fills the memory.
type guarded struct {
	in   io.Reader
	read int
}

func (g *guarded) Read(p []byte) (int, error) {
	if g.read > LongestRow {
		return 0, fmt.Errorf("a row of more than %d MiB: is a quotation mark missing?", LongestRow>>20)
	}
	n, err := g.in.Read(p)
	g.read += n
	return n, err
}
