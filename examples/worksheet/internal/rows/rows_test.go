package rows

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"
)

var double = Function{Name: "double", In: []string{"x"}, Out: []Output{Out("y", 2)}, Run: func(in, out []float64) error {
	out[0] = 2 * in[0]
	return nil
}}

func streamed(in string, o Options) (out, notes string, err error) {
	var b, n bytes.Buffer
	err = double.Stream(context.Background(), strings.NewReader(in), &b, &n, o)
	return b.String(), n.String(), err
}

func TestTheFileKeepsItsForm(t *testing.T) {
	for name, c := range map[string]struct{ in, out, note string }{
		"line breaks in cells":        {"x,note\r\n1,\"a\r\nb\nc\"\r\n", "x,note,y,error\r\n1,\"a\r\nb\nc\",2.00,\r\n", ""},
		"bytes of Windows-1252":       {"x;m\xfcde\n1;\xe4\n", "x;m\xfcde;y;error\n1;\xe4;2,00;\n", ""},
		"empty rows":                  {"x,n\n1,a\n\n,\n2,b\n", "x,n,y,error\n1,a,2.00,\n\n,,,\n2,b,4.00,\n", ""},
		"line ends of old programs":   {"x,n\r1,a\r2,b\r", "x,n,y,error\r1,a,2.00,\r2,b,4.00,\r", ""},
		"no line end at the end":      {"x\n1", "x,y,error\n1,2.00,\n", ""},
		"sep= line":                   {"sep=;\nx;n\n1,5;a\n", "sep=;\nx;n;y;error\n1,5;a;3,00;\n", "header is line 2"},
		"title and comment":           {"My trials\n# by hand\n\nx,n\n1,a\n# end\n", "My trials\n# by hand\n\nx,n,y,error\n1,a,2.00,\n# end\n", "header is line 4"},
		"title with a quotation mark": {"\"My trials\nx,n\n1,a\n", "\"\"\"My trials\"\nx,n,y,error\n1,a,2.00,\n", "header is line 2"},
		"row that begins with #":      {"n,x\n#3,1\n", "n,x,y,error\n#3,1,2.00,\n", ""},
		"UTF-16":                      {"\xff\xfex\x00\n\x001\x00\n\x00", "\ufeffx,y,error\n1,2.00,\n", "UTF-16 (little endian)"},
		"result that is taken":        {"x,Y,y_result\n1,5,6\n", "x,Y,y_result,y_result_result,error\n1,5,6,2.00,\n", `the result is in "y_result_result"`},
		"decimal commas in quotes":    {"x,n\n\"1,5\",a\n", "x,n,y,error\n\"1,5\",a,\"3,00\",\n", ""},
	} {
		out, notes, err := streamed(c.in, Options{})
		if err != nil || out != c.out || !strings.Contains(notes, c.note) {
			t.Errorf("%s: %v\ngot  %q\nwant %q\nnotes %q, want %q", name, err, out, c.out, notes, c.note)
		}
	}
}

func TestQuotationMarksSwallowNoRows(t *testing.T) {
	rest := strings.Repeat("1,a\n", 1000)
	for name, in := range map[string]string{
		"never closed":                "x,n\n1,\"5 inch jar\n" + rest,
		"closed by a later one":       "x,n\n1,\"5 inch jar\n" + rest + "2,\"b\"\n",
		"stray in a quoted cell":      "x,n\n1,\"5\" jar\"\n" + rest,
		"closed as if it were a cell": "x,n\n1,\"5 inch jar\n" + rest + "2,5\"\n",
	} {
		out, _, err := streamed(in, Options{})
		if !errors.Is(err, ErrBad) || !strings.Contains(err.Error(), "the first is row 2: ") {
			t.Errorf("%s: %v; wanted an error that names row 2", name, err)
		}
		if got, want := strings.Count(out, "\n"), strings.Count(in, "\n"); got != want {
			t.Errorf("%s: %d lines become %d", name, want, got)
		}
	}
	_, _, err := streamed("x,n\n1,\"two\nlines\"\n1,\"5 inch jar\n", Options{})
	if err == nil || !strings.Contains(err.Error(), "row 3 (line 4)") || !strings.Contains(err.Error(), `"5 inch jar`) {
		t.Errorf("%v; wanted row 3 (line 4) and the cell", err)
	}
}

func TestHeadsThatCannotBeRead(t *testing.T) {
	for in, want := range map[string]string{
		"":                                 "empty input",
		"a,b\n1,2\n":                       `no column "x"; it reads x, the header has a, b`,
		"x,n,X\n1,2,3\n":                   "columns 1 and 3 are both named",
		"x,\"n\n1,2\n":                     "a quotation mark is not closed",
		"PK\x03\x04":                       "save the sheet as CSV",
		"xy,\x00\n":                        "zero bytes",
		"\n\n\n":                           "no header line",
		"\x1b[2J\n":                        `"\x1b[2J"`,
		strings.Repeat("title\n", 100):     "no column",
		"\xff\xfe" + "x\x00\n\x00\x3d\xd8": "half a character",
	} {
		out, _, err := streamed(in, Options{})
		if err == nil || errors.Is(err, ErrBad) || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v; wanted %q", in, err, want)
		}
		if strings.Contains(out, "\x1b") {
			t.Errorf("%q: printed %q", in, out)
		}
	}
}

// One decimal mark a file.
func TestDecimalMarkOfTheFile(t *testing.T) {
	for name, c := range map[string]struct {
		in   string
		o    Options
		want []string // results, or "!" and a part of the error
	}{
		"comma, also for whole numbers":   {"x;n\n3,5;\n20;\n", Options{}, []string{"7,00", "40,00"}},
		"comma, whole numbers first":      {"x;n\n20;\n3,5;\n", Options{}, []string{"40,00", "7,00"}},
		"point in a file with semicolons": {"x;n\n1.092;\n20;\n", Options{}, []string{"2.18", "40.00"}},
		"gravities with commas":           {"x;n\n1,092;\n", Options{}, []string{"2,18"}},
		"the other one is refused":        {"x;n\n3,5;\n1.5;\n1.500;\n", Options{}, []string{"7,00", "!has a point", "!has a point"}},
		"comma in a file with points":     {"x\tn\n1.5\t\n3,5\t\n1,500\t\n", Options{}, []string{"3.00", "!has a comma", "!may be read"}},
		"tabs and nothing but thousands":  {"x\tn\n1,500\t\n", Options{}, []string{"!-decimal"}},
		"tabs and commas":                 {"x\tn\n1,50\t\n", Options{}, []string{"3,00"}},
		"told":                            {"x\tn\n1,500\t\n", Options{Decimal: ','}, []string{"3,00"}},
		"told against the first rows":     {"x;n\n3,5;\n1.5;\n", Options{Decimal: '.'}, []string{"!has a comma", "3.00"}},
		"thousands":                       {"x;n\n1.234,5;\n3,5;\n", Options{}, []string{"!thousands", "7,00"}},
		"what strconv reads":              {"x;n\n0x1.17p0;\n1_0;\nInf;\n5.;\n.5;\n+1e-1;\n", Options{}, []string{"!not a", "!not a", "!not a", "!", "1.00", "0.20"}},
	} {
		out, _, _ := streamed(c.in, c.o)
		lines := strings.Split(strings.TrimSpace(out), "\n")[1:]
		for i, want := range c.want {
			cells := strings.FieldsFunc(lines[i], func(r rune) bool { return r == rune(c.in[1]) })
			last := cells[len(cells)-1]
			if part, refused := strings.CutPrefix(want, "!"); refused && (!strings.Contains(last, part) || !strings.Contains(lines[i], "x: ")) || !refused && last != want {
				t.Errorf("%s: row %d is %q, wanted %q", name, i+1, lines[i], want)
			}
		}
	}
}

func TestOptions(t *testing.T) {
	for name, c := range map[string]struct {
		in  string
		o   Options
		out string
	}{
		"separator": {"x|n;m\n1|a\n", Options{Separator: '|'}, "x|n;m|y|error\n1|a|2.00|\n"},
		"mark":      {"x\n1\n", Options{BOM: true}, "\ufeffx,y,error\n1,2.00,\n"},
		"guard": {"x,n\n1,=SUM(A1)\n-2,-3\n3,-2+3\n4,\"@a,b\"\n5,\"\tc\"\n=9,+4\n", Options{Guard: true},
			"x,n,y,error\n1,'=SUM(A1),2.00,\n-2,-3,-4.00,\n3,'-2+3,6.00,\n4,\"'@a,b\",8.00,\n5,\"'\tc\",10.00,\n'=9,+4,,\"x: \"\"=9\"\" is not a number\"\n"},
		"no guard": {"x,n\n1,=SUM(A1)\n", Options{}, "x,n,y,error\n1,=SUM(A1),2.00,\n"},
	} {
		if out, _, err := streamed(c.in, c.o); out != c.out || err != nil && !errors.Is(err, ErrBad) {
			t.Errorf("%s: %v\ngot  %q\nwant %q", name, err, out, c.out)
		}
	}
	if _, _, err := streamed("x,m\xfcde\n1,\n", Options{BOM: true}); err == nil || !strings.Contains(err.Error(), "-bom") {
		t.Errorf("a byte order mark before Windows-1252: %v", err)
	}
}

// What is written is what strconv writes, but for the sign of zero.
func TestFixedNumbersAreThoseOfStrconv(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 300000 {
		x, places := math.Exp(60*r.Float64()-30), r.IntN(8)
		switch r.IntN(4) {
		case 0:
			x = float64(r.IntN(2000000)) / 1024 // halves of the last place among them
		case 1:
			x = math.Nextafter(math.Round(x*8)/8, 10*r.Float64())
		}
		if r.IntN(2) == 0 {
			x = -x
		}
		got, want := string(appendFixed(nil, x, places, '.')), strconv.FormatFloat(x, 'f', places, 64)
		if strings.Trim(want, "-0.") == "" {
			want = strings.TrimPrefix(want, "-")
		}
		if got != want {
			t.Fatalf("%v to %d places: %s, want %s", x, places, got, want)
		}
	}
}

func TestNumbersAreThoseOfStrconv(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 300000 {
		text := strconv.FormatFloat(math.Exp(40*r.Float64()-20), pick[byte](r, 'f', 'e', 'g'), r.IntN(20)-1, 64)
		want, _ := strconv.ParseFloat(text, 64)
		if got, err := number([]byte(text), '.'); got != want || err != nil {
			t.Fatalf("%s is read as %v, %v", text, got, err)
		}
		comma := strings.Replace(text, ".", ",", 1)
		if got, err := number([]byte(comma), ','); got != want || err != nil {
			t.Fatalf("%s is read as %v, %v", comma, got, err)
		}
	}
}

// The time is long so that a busy machine keeps it; the promise is 50 ms.
const soon = 5 * time.Second

func within(t *testing.T, what string, f func()) {
	t.Helper()
	done := make(chan struct{})
	go func() { defer close(done); f() }()
	select {
	case <-done:
	case <-time.After(soon):
		t.Fatalf("%s: nothing after %v", what, soon)
	}
}

func TestRowsComeOutAsTheyComeIn(t *testing.T) {
	in, feed := io.Pipe()
	got, out := io.Pipe()
	done := make(chan error, 1)
	go func() { done <- double.Stream(context.Background(), in, out, io.Discard, Options{}) }()
	buf := make([]byte, 1000)
	for _, c := range [][2]string{{"n,x\n", "n,x,y,error\n"}, {"a,1\n", "a,1,2.00,\n"}, {"b,2\nc,", "b,2,4.00,\n"}, {"3\n", "c,3,6.00,\n"}} {
		within(t, c[0], func() {
			_, _ = feed.Write([]byte(c[0]))
			if n, _ := io.ReadAtLeast(got, buf, len(c[1])); string(buf[:n]) != c[1] {
				t.Errorf("%q comes out as %q, wanted %q", c[0], buf[:n], c[1])
			}
		})
	}
	_ = feed.Close()
	within(t, "end", func() {
		if err := <-done; err != nil {
			t.Error(err)
		}
	})
}

func TestInterruptionEndsTheWaitForInput(t *testing.T) {
	for _, fed := range []string{"", "x", "x,n\n1,a\n2"} {
		in, feed := io.Pipe()
		ctx, stop := context.WithCancel(context.Background())
		done := make(chan error, 1)
		var out bytes.Buffer
		go func() { done <- double.Stream(ctx, in, &out, io.Discard, Options{}) }()
		if fed != "" {
			_, _ = feed.Write([]byte(fed))
		}
		stop()
		within(t, "interrupted with "+strconv.Quote(fed), func() {
			if err := <-done; err == nil || !strings.Contains(err.Error(), "interrupted after") {
				t.Errorf("%q: %v", fed, err)
			}
		})
		_ = feed.Close()
	}
}

// A pipe that nobody reads fills up; what stands in it then are whole rows.
func TestInterruptionOfAFullPipeLeavesWholeRows(t *testing.T) {
	for _, long := range []int{1, 300, 3000} {
		got, out, err := os.Pipe()
		if err != nil {
			t.Fatal(err)
		}
		ctx, stop := context.WithCancel(context.Background())
		done := make(chan error, 1)
		row := "1," + strings.Repeat("a", long) + "\n"
		go func() {
			done <- double.Stream(ctx, io.MultiReader(strings.NewReader("x,n\n"), endless(row)), out, io.Discard, Options{})
		}()
		time.Sleep(100 * time.Millisecond) // the pipe is full
		stop()
		within(t, "interrupted with a full pipe", func() { err = <-done })
		if err == nil || !strings.Contains(err.Error(), "interrupted after") {
			t.Errorf("%v", err)
		}
		full := make([]byte, 1<<20)
		n, err := got.Read(full)
		if err != nil {
			t.Fatal(err)
		}
		lines := strings.SplitAfter(string(full[:n]), "\n")
		for i, line := range lines[1 : len(lines)-1] {
			if line != strings.TrimSpace(row)+",2.00,\n" {
				t.Fatalf("row %d is %q", i+1, line)
			}
		}
		if last := lines[len(lines)-1]; last != "" {
			t.Errorf("rows of %d bytes: it ends in the middle of one: %.40q", long, last)
		}
		_, _ = got.Close(), out.Close()
	}
}

type repeat struct {
	text string
	at   int
}

func endless(text string) io.Reader { return &repeat{text: text} }

func (r *repeat) Read(p []byte) (n int, err error) {
	for n < len(p) {
		k := copy(p[n:], r.text[r.at:])
		n, r.at = n+k, (r.at+k)%len(r.text)
	}
	return n, nil
}

// Rows of 10 MB are held one or two at a time, not by the hundred.
func TestLongRowsDoNotFillTheMemory(t *testing.T) {
	row := "1," + strings.Repeat("a", 10<<20) + "\n"
	in := io.LimitReader(endless(row), int64(12*len(row)))
	count := &watcher{}
	if err := double.Stream(context.Background(), io.MultiReader(strings.NewReader("x,n\n"), in), count, io.Discard, Options{}); err != nil {
		t.Fatal(err)
	}
	if count.rows != 13 {
		t.Errorf("%d lines of 13", count.rows)
	}
	if count.most > 100<<20 {
		t.Errorf("it held %d MB", count.most>>20)
	}
}

type watcher struct {
	rows int
	most uint64
}

func (w *watcher) Write(p []byte) (int, error) {
	var m runtime.MemStats
	if w.rows += bytes.Count(p, []byte("\n")); len(p) > 1<<20 {
		runtime.GC() // what is held, not what waits to be collected
		runtime.ReadMemStats(&m)
		w.most = max(w.most, m.HeapAlloc)
	}
	return len(p), nil
}

func TestRowsOverTheLimit(t *testing.T) {
	long := strings.Repeat("a", LongestRow+1<<20)
	if _, _, err := streamed("x,n\n1,b\n1,"+long+"\n", Options{}); err == nil || !strings.Contains(err.Error(), "row 3, line 3, is longer than 16 MB") {
		t.Errorf("%v", err)
	}
	rows := strings.Repeat("1,"+strings.Repeat("a", 998)+"\n", LongestRow/1000)
	out, _, err := streamed("x,n\n1,\"b\n"+rows, Options{}) // more than a row may have before the quotation mark could be closed
	if !errors.Is(err, ErrBad) || !strings.Contains(err.Error(), "1 of ") || !strings.Contains(err.Error(), "is row 2:") {
		t.Errorf("%v", err)
	}
	if got, want := strings.Count(out, "\n"), 2+LongestRow/1000; got != want {
		t.Errorf("%d lines become %d", want, got)
	}
}

type fails struct{}

func (fails) Write([]byte) (int, error) { return 0, errors.New("no space") }

func TestUnwritable(t *testing.T) {
	within(t, "no space", func() {
		in := io.MultiReader(strings.NewReader("x\n"), endless("1\n"))
		if err := double.Stream(context.Background(), in, fails{}, io.Discard, Options{}); err == nil || err.Error() != "no space" {
			t.Errorf("%v", err)
		}
	})
}

type breaks struct{ io.Reader }

func (b breaks) Read(p []byte) (int, error) {
	n, err := b.Reader.Read(p)
	if err == io.EOF {
		err = errors.New("unplugged")
	}
	return n, err
}

func TestWhatWasReadBeforeAFaultComesOut(t *testing.T) {
	var out bytes.Buffer
	err := double.Stream(context.Background(), breaks{strings.NewReader("x\n1\n2\n")}, &out, io.Discard, Options{})
	if err == nil || !strings.Contains(err.Error(), "behind row 3: unplugged") || !strings.HasSuffix(out.String(), "2,4.00,\n") {
		t.Errorf("%v, %q", err, out.String())
	}
}

func TestResultsAreFinite(t *testing.T) {
	f := double
	f.Run = func(in, out []float64) error { out[0] = math.Inf(int(in[0])); return nil }
	var out bytes.Buffer
	if err := f.Stream(context.Background(), strings.NewReader("x\n1\n"), &out, io.Discard, Options{}); !errors.Is(err, ErrBad) || strings.Contains(out.String(), "Inf") {
		t.Errorf("%v, %q", err, fmt.Sprint(out.String()))
	}
}
