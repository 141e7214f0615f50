package rows

import "fmt"

// A tally counts what was written.
type tally struct {
	expected, data, bad, remarks, doubtful int
	first, firstDoubtful                   string
}

func (t *tally) add(l *lot, got result) {
	if t.bad == 0 && got.bad > 0 {
		t.first = got.first.in(l)
	}
	if t.doubtful == 0 && got.doubtful > 0 {
		t.firstDoubtful = got.firstDoubtful.in(l)
	}
	t.data, t.bad, t.remarks, t.doubtful = t.data+got.data, t.bad+got.bad, t.remarks+got.remark, t.doubtful+got.doubtful
}

// in is the fault with its row in the file.
func (f fault) in(l *lot) string {
	row, line := l.row+f.row, l.line+f.line
	if line != row {
		return fmt.Sprintf("row %d (line %d): %s", row, line, f.why)
	}
	return fmt.Sprintf("row %d: %s", row, f.why)
}

// result says how the stream ended.
func (t *tally) result(s *stream) error {
	if s.readErr != nil {
		return s.readErr
	}
	if t.remarks > 0 {
		fmt.Fprintf(s.notes, "column %s: note: %d lines that begin with # are copied as comments\n", s.Name, t.remarks)
	}
	if t.doubtful > 0 {
		fmt.Fprintf(s.notes, "column %s: careful with %d of %d rows; the first is %s\n", s.Name, t.doubtful, t.data, t.firstDoubtful)
	}
	if t.bad > 0 {
		return fmt.Errorf("%w: %d of %d, see the column error; the first is %s", ErrBad, t.bad, t.data, t.first)
	}
	return nil
}
