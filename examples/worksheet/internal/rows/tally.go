package rows

import "fmt"

// A tally counts what was written.
type tally struct {
	expected, data, bad, remarks int
	first                        string
}

func (t *tally) add(l *lot, got result) {
	if t.bad == 0 && got.bad > 0 {
		row, line := l.row+got.first.row, l.line+got.first.line
		t.first = fmt.Sprintf("row %d", row)
		if line != row {
			t.first += fmt.Sprintf(" (line %d)", line)
		}
		t.first += ": " + got.first.why
	}
	t.data, t.bad, t.remarks = t.data+got.data, t.bad+got.bad, t.remarks+got.remark
}

// result says how the stream ended.
func (t *tally) result(s *stream) error {
	if s.readErr != nil {
		return s.readErr
	}
	if t.remarks > 0 {
		fmt.Fprintf(s.notes, "column %s: note: %d lines that begin with # are copied as comments\n", s.Name, t.remarks)
	}
	if t.bad > 0 {
		return fmt.Errorf("%w: %d of %d, see the column error; the first is %s", ErrBad, t.bad, t.data, t.first)
	}
	return nil
}
