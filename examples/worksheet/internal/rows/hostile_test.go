package rows

import (
	"bytes"
	"context"
	"encoding/csv"
	"errors"
	"flag"
	"fmt"
	"io"
	"math/rand/v2"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

var hostileFiles = flag.Int("hostile", 300, "generated files that TestNoRowIsLost streams")

// A reader of its own, by the words of RFC 4180: a cell that starts with a
// quotation mark is quoted if it matches, and else ends at the next separator.
type cellRead struct {
	raw string
	bad bool
}

type rowRead struct {
	cells   []cellRead
	raw, to string // without and with nothing but its line end
}

func (r rowRead) bad() bool {
	return slices.ContainsFunc(r.cells, func(c cellRead) bool { return c.bad })
}

func (c cellRead) says() string {
	if !c.bad && strings.HasPrefix(c.raw, `"`) {
		return strings.ReplaceAll(c.raw[1:len(c.raw)-1], `""`, `"`)
	}
	return c.raw
}

func readAll(text string, comma, eol byte) (all []rowRead) {
	sep := regexp.QuoteMeta(string(comma))
	end := `\r\n|\n|\r?\z`
	if eol == '\r' {
		end = `\r|\z`
	}
	quoted := regexp.MustCompile(`(?s)\A("(?:[^"]|"")*")(` + sep + `|` + end + `)`)
	plain := regexp.MustCompile(`(?s)\A(.*?)(` + sep + `|` + end + `)`)
	if eol == '\n' { // a carriage return elsewhere is a letter
		plain = regexp.MustCompile(`(?s)\A(.*?)(` + sep + `|\r\n|\n|\r?\z)`)
	}
	for len(text) > 0 {
		var row rowRead
		for {
			cell, m := cellRead{}, quoted.FindStringSubmatch(text)
			if m == nil {
				m = plain.FindStringSubmatch(text)
				cell.bad = strings.HasPrefix(m[1], `"`)
			}
			cell.raw = m[1]
			row.cells = append(row.cells, cell)
			text = text[len(m[0]):]
			if m[2] != string(comma) {
				row.to = m[2]
				row.raw += m[1]
				break
			}
			row.raw += m[0]
		}
		all = append(all, row)
	}
	return all
}

// A hostile file: what stands above its rows, and rows of which it is known how
// many they are (or -1, where quotation marks decide).
type hostile struct {
	head, body string
	comma, eol byte
	mark       byte
	rows       int
	columns    int
}

func pick[T any](r *rand.Rand, of ...T) T { return of[r.IntN(len(of))] }

func generate(r *rand.Rand) (h hostile) {
	h.comma, h.eol, h.mark = pick[byte](r, ',', ';', '\t', '|'), '\n', pick[byte](r, '.', ',')
	end := pick(r, "\n", "\n", "\r\n")
	if r.IntN(12) == 0 {
		h.eol, end = '\r', "\r"
	}
	c := string(h.comma)
	switch {
	case h.comma == '|' || r.IntN(8) == 0:
		h.head = "sep=" + c + end
	case r.IntN(8) == 0:
		h.head = pick(r, "Trials of a morello wine", "# made by hand", "", "\"two\nlines\"", "a"+c+"b") + end
	}
	if h.eol == '\r' {
		h.head = strings.ReplaceAll(h.head, "\n", "\r")
	}
	names := []string{"note", "x", "Größe", "m\xfcll", `"quoted ""name"""`}[:1+r.IntN(5)]
	if !slices.Contains(names, "x") {
		names = append(names, "x")
	}
	h.columns = len(names)
	h.head += strings.Join(names, c) + end
	quotes := r.IntN(2) == 0
	for range r.IntN(60) {
		row := strings.Join(h.cells(r, names, quotes), c)
		if h.eol == '\r' {
			row = strings.ReplaceAll(row, "\n", " ")
		}
		ends := end
		if h.eol == '\n' && r.IntN(20) == 0 {
			ends = pick(r, "\n", "\r\n")
		}
		h.body += row + ends
		h.rows++
	}
	if r.IntN(4) == 0 && h.rows > 0 {
		cut := strings.TrimRight(h.body, "\r\n")
		if h.body = cut; cut == "" || h.rows > 1 {
			h.rows = -1
		}
	}
	if quotes {
		h.rows = -1
	}
	if r.IntN(5) == 0 { // any bytes anywhere
		b := []byte(h.body)
		for range r.IntN(4) {
			if len(b) > 0 {
				b[r.IntN(len(b))] = pick(r, byte(r.IntN(256)), '"', h.comma, '\n', '\r')
			}
		}
		h.body, h.rows = string(b), -1
	}
	if h.eol == '\r' {
		h.body = strings.ReplaceAll(h.body, "\n", " ")
	}
	return h
}

// cells of one row.
func (h *hostile) cells(r *rand.Rand, names []string, quotes bool) []string {
	if r.IntN(12) == 0 {
		return []string{pick(r, "", strings.Repeat(string(h.comma), r.IntN(4)), "# a comment", "#"+string(h.comma))}
	}
	cells := make([]string, len(names))
	for i, name := range names {
		if name == "x" {
			x := strconv.FormatFloat(float64(r.IntN(200000)-1000)/1000, 'f', r.IntN(4), 64)
			cells[i] = pick(r, x, x, x, x, strings.Replace(x, ".", ",", 1), "", "NaN", "0x1p3", "1_0", "1,500", "1.500", " 7 ", "1e999", "1e3", `"`+x+`"`, "=1+1")
			if strings.IndexByte(cells[i], h.comma) >= 0 && cells[i][0] != '"' {
				cells[i] = `"` + cells[i] + `"`
			}
			continue
		}
		text := pick(r, "", "plain", "m\xfcde", "\u202eback", "two\nlines", "two\r\nlines", "a\rb", `5" jar`, "=SUM(A1)", "-2+3", "@x", "\x00", "\ufeff",
			strings.Repeat("long ", pick(r, 3, 30, 300)), string(h.comma), "'", " spaced ")
		if strings.ContainsAny(text, "\"\r\n") || strings.IndexByte(text, h.comma) >= 0 || r.IntN(6) == 0 {
			text = `"` + strings.ReplaceAll(text, `"`, `""`) + `"`
		}
		if quotes && r.IntN(8) == 0 {
			text = pick(r, `"5 inch jar`, `"5" jar"`, `5" jar`, `"`, `""x`, `"""`, `x"`, `"a`+"\n", `" "`)
		}
		cells[i] = text
	}
	switch r.IntN(12) {
	case 0:
		cells = cells[:r.IntN(len(cells))+1]
	case 1:
		cells = append(cells, "more")
	}
	return cells
}

// dribble hands out small pieces of any length.
type dribble struct {
	r    *rand.Rand
	text string
}

func (d *dribble) Read(p []byte) (int, error) {
	if d.text == "" {
		return 0, io.EOF
	}
	n := copy(p, d.text[:1+d.r.IntN(min(len(d.text), 700))])
	d.text = d.text[n:]
	return n, nil
}

// Every row comes out, in order, byte for byte, with its result or its error;
// the counts of the error agree with the column; what comes out is sound CSV.
func TestNoRowIsLost(t *testing.T) {
	r := rand.New(rand.NewPCG(20, 10000))
	for i := range *hostileFiles {
		h := generate(r)
		o := Options{Decimal: h.mark}
		var out bytes.Buffer
		err := double.Stream(context.Background(), strings.NewReader(h.head+h.body), &out, io.Discard, o)
		if fault := account(h, out.String(), err); fault != nil {
			t.Fatalf("file %d: %v\nhead %q\nbody %q\nout  %q", i, fault, h.head, h.body, out.String())
		}
		var again bytes.Buffer
		if err2 := double.Stream(context.Background(), &dribble{r, h.head + h.body}, &again, io.Discard, o); fmt.Sprint(err2) != fmt.Sprint(err) || again.String() != out.String() {
			t.Fatalf("file %d: in small pieces it gives %v, not %v\n%q\n%q", i, err2, err, again.String(), out.String())
		}
	}
}

func account(h hostile, out string, err error) error {
	if err != nil && !errors.Is(err, ErrBad) {
		return err
	}
	added := strings.Join([]string{"", "y", "error"}, string(h.comma))
	head := strings.TrimRight(h.head, "\r\n") + added
	if !strings.HasPrefix(out, head) {
		return fmt.Errorf("the head is not %q", head)
	}
	body := strings.TrimPrefix(strings.TrimPrefix(out[len(head):], "\r"), "\n")
	before, after := readAll(h.body, h.comma, h.eol), readAll(body, h.comma, h.eol)
	if len(before) != len(after) || h.rows >= 0 && h.rows != len(after) {
		return fmt.Errorf("%d rows become %d; %d were made", len(before), len(after), h.rows)
	}
	bad, data := 0, 0
	for i := range before {
		failed, isData, fault := compare(h, before[i], after[i])
		if fault != nil {
			return fmt.Errorf("row %d: %q becomes %q: %w", i+1, before[i].raw, after[i].raw, fault)
		}
		if failed {
			bad++
		}
		if isData {
			data++
		}
	}
	if said := fmt.Sprintf("%d of %d,", bad, data); bad > 0 != (err != nil) || err != nil && !strings.Contains(err.Error(), said) {
		return fmt.Errorf("%v; it is %s", err, said)
	}
	return sound(h, body, after)
}

// sound asks another reader, too.
func sound(h hostile, body string, rows []rowRead) error {
	if h.eol == '\r' {
		return nil // encoding/csv does not know such files
	}
	r := csv.NewReader(strings.NewReader(body))
	r.Comma, r.LazyQuotes, r.FieldsPerRecord = rune(h.comma), true, -1
	all, err := r.ReadAll()
	want := 0
	for _, row := range rows {
		if row.raw != "" {
			want++
		}
	}
	if err != nil || len(all) != want {
		return fmt.Errorf("encoding/csv reads %d rows of %d: %v", len(all), want, err)
	}
	return nil
}

func compare(h hostile, in, out rowRead) (failed, data bool, fault error) {
	if out.bad() {
		return false, false, errors.New("quotation marks that break the rules")
	}
	if in.to != out.to && (in.to == "\n" || in.to == "\r\n") {
		return false, false, errors.New("another line end")
	}
	if in.raw == "" || in.raw[0] == '#' && len(in.cells) != h.columns {
		if out.raw != in.raw && !in.bad() {
			return false, false, errors.New("an empty row or a comment is changed")
		}
		return false, false, nil
	}
	if want := max(len(in.cells), h.columns) + 2; len(out.cells) != want {
		return false, false, fmt.Errorf("%d cells, want %d", len(out.cells), want)
	}
	if !in.bad() && !strings.HasPrefix(out.raw, in.raw+string(h.comma)) {
		return false, false, errors.New("its bytes are changed")
	}
	for i := range in.cells {
		if in.cells[i].says() != out.cells[i].says() {
			return false, false, fmt.Errorf("cell %d says something else", i+1)
		}
	}
	y, why := out.cells[len(out.cells)-2].says(), out.cells[len(out.cells)-1].says()
	empty := !slices.ContainsFunc(in.cells, func(c cellRead) bool { return strings.TrimSpace(c.raw) != "" })
	if empty {
		return false, false, differs(y+why != "", "an empty row has a result")
	}
	if why != "" {
		return true, true, differs(y != "", "a result and an error")
	}
	at := slices.IndexFunc(strings.Split(strings.TrimRight(h.head, "\r\n"), string(h.comma)), func(s string) bool { return s == "x" })
	if n := strings.LastIndexAny(strings.TrimRight(h.head, "\r\n"), "\r\n"); n >= 0 {
		at = slices.Index(strings.Split(strings.TrimRight(h.head[n+1:], "\r\n"), string(h.comma)), "x")
	}
	x, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(in.cells[at].says()), string(h.mark), ".", 1), 64)
	want := fmt.Sprintf("%.2f", 2*x)
	if want == "-0.00" {
		want = "0.00"
	}
	want = strings.Replace(want, ".", string(h.mark), 1)
	return false, true, differs(err != nil || y != want, "twice %q is %q", in.cells[at].says(), y)
}

func differs(yes bool, format string, args ...any) error {
	if yes {
		return fmt.Errorf(format, args...)
	}
	return nil
}

// The same for any text behind a head.
func FuzzStream(f *testing.F) {
	f.Add("1\n2\n", byte('.'), false)
	f.Add("\"p;q\";1,5\r\n", byte(','), false)
	f.Add("\"\"\"\",\n-1\nNaN\n\"5 inch\n", byte('.'), true)
	f.Fuzz(func(t *testing.T, body string, mark byte, old bool) {
		h := hostile{head: "note;x\n", body: body, comma: ';', eol: '\n', mark: '.', rows: -1, columns: 2}
		if mark&1 == 0 {
			h.mark = ','
		}
		if old {
			h.eol, h.head, h.body = '\r', "note;x\r", strings.ReplaceAll(body, "\n", " ")
		}
		var out bytes.Buffer
		err := double.Stream(context.Background(), strings.NewReader(h.head+h.body), &out, io.Discard, Options{Decimal: h.mark})
		if fault := account(h, out.String(), err); fault != nil {
			t.Fatalf("%v\nbody %q\nout  %q", fault, h.body, out.String())
		}
	})
}
