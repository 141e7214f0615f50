package rows

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
)

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
