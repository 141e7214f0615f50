// Package rows streams CSV through a function: every row and every column is
// kept, results are added, a bad row gets its reason and the work goes on. Lots
// of rows are worked on by all cores and written in order; memory is bounded.
package rows

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"
	"runtime"
	"slices"
	"strconv"
	"strings"
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

// A dialect is how the file is written: kept on the way out.
type dialect struct {
	bom, crlf bool
	comma     rune
}

func newText(in io.Reader) *bufio.Reader { return bufio.NewReaderSize(in, 1<<16) }

// sniff reads the dialect off the header line without consuming more than the
// byte order mark.
func sniff(in *bufio.Reader) (dialect, error) {
	d := dialect{comma: ','}
	if mark, _ := in.Peek(3); bytes.Equal(mark, []byte("\ufeff")) {
		d.bom = true
		_, _ = in.Discard(3)
	}
	start, err := in.Peek(in.Size())
	if len(start) == 0 {
		return d, fmt.Errorf("empty input: a header line is needed (%v)", err)
	}
	line, _, _ := bytes.Cut(start, []byte("\n"))
	d.crlf = bytes.HasSuffix(line, []byte("\r"))
	for _, c := range []rune{';', '\t'} {
		if bytes.Count(line, []byte(string(c))) > bytes.Count(line, []byte(string(d.comma))) {
			d.comma = c
		}
	}
	return d, nil
}

// A worker turns rows into rows with results.
type worker struct {
	Function
	dialect
	at    []int // columns of the inputs
	cells int   // of the header
}

func (f Function) plan(header []string, d dialect) (*worker, error) {
	w := &worker{Function: f, dialect: d, cells: len(header)}
	for _, name := range f.In {
		i := slices.IndexFunc(header, func(h string) bool { return strings.EqualFold(strings.TrimSpace(h), name) })
		if i < 0 {
			return nil, fmt.Errorf("column %s: no column %q; it reads %s, the header has %s", f.Name, name, strings.Join(f.In, ", "), strings.Join(header, ", "))
		}
		w.at = append(w.at, i)
	}
	return w, nil
}

func (w *worker) header(header []string) []byte {
	var b bytes.Buffer
	if w.bom {
		b.WriteString("\ufeff")
	}
	row := slices.Clone(header)
	for _, name := range append(w.Added(), "error") {
		for slices.Contains(row, name) { // a name that is there already is kept
			name += "_result"
		}
		row = append(row, name)
	}
	w.printer(&b).row(row)
	return b.Bytes()
}

// A printer writes rows in the dialect. It ends lines itself: encoding/csv
// drops lone carriage returns from cells when it is to write CRLF.
type printer struct {
	*csv.Writer
	to   *bytes.Buffer
	crlf bool
}

func (w *worker) printer(b *bytes.Buffer) printer {
	c := csv.NewWriter(b)
	c.Comma = w.comma
	return printer{c, b, w.crlf}
}

func (p printer) row(cells []string) {
	_ = p.Write(cells) // a bytes.Buffer takes everything
	p.Flush()
	if p.crlf {
		p.to.Truncate(p.to.Len() - 1)
		p.to.WriteString("\r\n")
	}
}

func (w *worker) work(rows [][]string) (r result) {
	var b bytes.Buffer
	c := w.printer(&b)
	in, out := make([]float64, len(w.at)), make([]float64, len(w.Out))
	var full []string
	var digits []byte
	for _, row := range rows {
		decimal := "."
		err := error(nil)
		for k, i := range w.at {
			cell := ""
			if i < len(row) {
				cell = strings.TrimSpace(row[i])
			}
			if w.comma != ',' && strings.Contains(cell, ",") {
				cell, decimal = strings.Replace(cell, ",", ".", 1), ","
			}
			if in[k], err = strconv.ParseFloat(cell, 64); err != nil {
				err = fmt.Errorf("%s: %q is not a number", w.In[k], cell)
				break
			}
		}
		if len(row) > w.cells {
			err = fmt.Errorf("%d cells, the header has %d", len(row), w.cells)
		}
		if err == nil {
			err = w.Run(in, out)
		}
		full = append(full[:0], row...)
		for len(full) < w.cells { // so that results stand under their heading
			full = append(full, "")
		}
		for k, o := range w.Out {
			if err != nil {
				full = append(full, "")
				continue
			}
			digits = strconv.AppendFloat(digits[:0], out[k], 'f', o.Places, 64)
			cell := string(digits)
			if decimal == "," {
				cell = strings.Replace(cell, ".", ",", 1)
			}
			full = append(full, cell)
		}
		if err != nil {
			r.bad++
			full = append(full, err.Error())
		} else {
			full = append(full, "")
		}
		c.row(full)
	}
	r.text = b.Bytes()
	return r
}
