package rows

import (
	"bytes"
	"context"
	"strings"
	"testing"
)

// Rows with a caution keep their results; they are counted over all lots and the
// first in the file is told. A row with an error has none.
func TestCautionsAreCountedAndTheFirstIsTold(t *testing.T) {
	f := double
	f.Caution = func(in, out []float64) string {
		if in[0] >= 1000 {
			return "much"
		}
		return ""
	}
	in := strings.Repeat("1\n", 70000) + "1000\nx\n2000\n" + strings.Repeat("1\n", 70000)
	var out, plain, notes bytes.Buffer
	_ = f.Stream(context.Background(), strings.NewReader("x\n"+in), &out, &notes, Options{})
	_ = double.Stream(context.Background(), strings.NewReader("x\n"+in), &plain, &bytes.Buffer{}, Options{})
	if want := "column double: careful with 2 of 140003 rows; the first is row 70002: much\n"; notes.String() != want {
		t.Errorf("%q, want %q", notes.String(), want)
	}
	if out.String() != plain.String() {
		t.Error("a caution changes the output")
	}
}
