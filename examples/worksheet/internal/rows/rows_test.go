package rows

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"os"
	"strings"
	"testing"
)

var double = Function{Name: "double", In: []string{"x"}, Out: []Output{Out("y", 2)}, Run: func(in, out []float64) error {
	out[0] = 2 * in[0]
	if in[0] < 0 {
		return errors.New("below zero")
	}
	return nil
}}

// Every row comes out, in order, with all of its cells, whatever is in them.
func FuzzStream(f *testing.F) {
	f.Add("x\n1\n2\n")
	f.Add("\ufeffa;x\r\n\"p;q\";1,5\r\n")
	f.Add("x,x\n\"\"\"\",\n-1\nNaN\n")
	f.Fuzz(func(t *testing.T, text string) {
		var out bytes.Buffer
		if err := double.Stream(strings.NewReader(text), &out, io.Discard, nil); err != nil && !errors.Is(err, ErrBad) {
			return
		}
		d, err := sniffed(text)
		if err != nil {
			return
		}
		read := func(s string) [][]string {
			r := csv.NewReader(strings.NewReader(strings.TrimPrefix(s, "\ufeff")))
			r.Comma, r.LazyQuotes, r.FieldsPerRecord = d.comma, true, -1
			rows, _ := r.ReadAll()
			return rows
		}
		before, after := read(text), read(out.String())
		if len(before) != len(after) {
			t.Fatalf("%d rows become %d\n%q\n%q", len(before), len(after), text, out.String())
		}
		for i := range before {
			for j := range before[i] {
				if before[i][j] != after[i][j] {
					t.Fatalf("row %d: %q becomes %q", i, before[i], after[i])
				}
			}
		}
	})
}

func sniffed(text string) (dialect, error) {
	return sniff(newText(strings.NewReader(text)))
}

// An interruption leaves whole lines.
func TestInterrupted(t *testing.T) {
	stop := make(chan os.Signal, 1)
	stop <- os.Interrupt
	var out bytes.Buffer
	err := double.Stream(strings.NewReader("x\n"+strings.Repeat("1\n", 100000)), &out, io.Discard, stop)
	if err == nil || !strings.Contains(err.Error(), "interrupted after") {
		t.Errorf("%v", err)
	}
	if !strings.HasSuffix(out.String(), "1,2.00,\n") {
		t.Errorf("ends in %q", out.String()[max(0, out.Len()-20):])
	}
}

type fails struct{}

func (fails) Write([]byte) (int, error) { return 0, errors.New("no space") }

func TestUnwritable(t *testing.T) {
	if err := double.Stream(strings.NewReader("x\n1\n"), fails{}, io.Discard, nil); err == nil || err.Error() != "no space" {
		t.Errorf("%v", err)
	}
}
