package main

import (
	"bytes"
	"context"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"

	"example.org/mutage/abv"

	"example.org/mutage/examples/worksheet/internal/rows"
)

func streamed(t *testing.T, name, in string) (string, error) {
	t.Helper()
	var out bytes.Buffer
	for _, f := range functions {
		if f.Name == name {
			err := f.Stream(context.Background(), strings.NewReader(in), &out, io.Discard, rows.Options{})
			return out.String(), err
		}
	}
	t.Fatalf("no function %q", name)
	return "", nil
}

func TestColumnKeepsEverything(t *testing.T) {
	f, err := abv.MassBalance(1.092, 1.046, abv.Must)
	if err != nil {
		t.Fatal(err)
	}
	_, above := abv.MassBalance(1.05, 1.06, abv.Must)
	// What the library says, at the declared places; CELLS stands for it below.
	cells := fmt.Sprintf("%.3f,%.2f,%.2f,%.5f", float64(f.Strength), float64(f.Extract), float64(f.CarbonDioxide), f.VolumeRatio)
	semicolons := strings.ReplaceAll(strings.ReplaceAll(cells, ",", ";"), ".", ",")
	for name, c := range map[string]struct {
		in, out string
		bad     bool
	}{
		"plain": {
			"name,og,fg\na,1.092,1.046\n",
			"name,og,fg,strength,extract,carbon_dioxide,volume_ratio,error\na,1.092,1.046,CELLS,\n", false},
		"other order, spaces, case": {
			"FG , Og\n1.046,1.092\n",
			"FG , Og,strength,extract,carbon_dioxide,volume_ratio,error\n1.046,1.092,CELLS,\n", false},
		"semicolons, decimal commas, CRLF, byte order mark, quoted": {
			"\ufeffname;og;fg\r\n\"a;\"\"b\"\"\";1,092;1,046\r\n",
			"\ufeffname;og;fg;strength;extract;carbon_dioxide;volume_ratio;error\r\n\"a;\"\"b\"\"\";1,092;1,046;SEMICOLONS;\r\n", false},
		"bad rows stay": {
			"og,fg\nx,1.04\n1.05\n1.05,1.06\n,1\n1.092,1.046,more\n",
			"og,fg,strength,extract,carbon_dioxide,volume_ratio,error\n" +
				"x,1.04,,,,,\"og: \"\"x\"\" is not a number\"\n" +
				"1.05,,,,,,fg is empty\n" +
				"1.05,1.06,,,,,\"ABOVE\"\n" +
				",1,,,,,og is empty\n" +
				"1.092,1.046,more,,,,,\"3 cells, the header has 2\"\n", true},
		"a name that is taken": {
			"og,fg,strength,error\n1.092,1.046,5,none\n",
			"og,fg,strength,error,strength_result,extract,carbon_dioxide,volume_ratio,error_result\n1.092,1.046,5,none,CELLS,\n", false},
		"header alone": {"og,fg\n", "og,fg,strength,extract,carbon_dioxide,volume_ratio,error\n", false},
	} {
		c.out = strings.NewReplacer("CELLS", cells, "SEMICOLONS", semicolons, "ABOVE", above.Error()).Replace(c.out)
		got, err := streamed(t, "ferment", c.in)
		if got != c.out || errors.Is(err, rows.ErrBad) != c.bad || err != nil && !c.bad {
			t.Errorf("%s: %v\ngot  %q\nwant %q", name, err, got, c.out)
		}
	}
}

func TestColumnRefuses(t *testing.T) {
	for name, in := range map[string]string{
		"empty":            "",
		"no such column":   "og,final\n1,1\n",
		"quote never ends": "og,fg\n\"" + strings.Repeat("x", rows.LongestRow+1<<20),
	} {
		if _, err := streamed(t, "ferment", in); err == nil || errors.Is(err, rows.ErrBad) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Order is kept and no row lost over many lots.
func TestColumnOrder(t *testing.T) {
	var in strings.Builder
	in.WriteString("n,strength,extract\n")
	for i := range 20000 {
		fmt.Fprintf(&in, "%d,%d,100\n", i, i%120) // above 100 % vol: an error
	}
	out, err := streamed(t, "stability", in.String())
	if !errors.Is(err, rows.ErrBad) {
		t.Error(err)
	}
	table, err := csv.NewReader(strings.NewReader(out)).ReadAll()
	if err != nil || len(table) != 20001 {
		t.Fatalf("%d rows, %v", len(table), err)
	}
	for i, row := range table[1:] {
		if row[0] != strconv.Itoa(i) || (row[4] == "") != (i%120 <= 100) {
			t.Fatalf("row %d: %q", i, row)
		}
	}
}

// Every function runs on some row, and its columns are as declared.
func TestColumnFunctions(t *testing.T) {
	good := map[string]string{"fortify": "3,6,140,75,20", "mix": "3,6,140,0.5,75", "ferment": "1.09,1.04", "stop": "1.09,5", "gravity": "1.09,25",
		"instruments": "1.0196,15.9", "spirit": "40,10", "alcoholometer": "42,26", "sugar": "3,1.05,1.09", "doses": "3,50,200", "stability": "20,100"}
	for _, f := range functions {
		out, err := streamed(t, f.Name, strings.Join(f.In, ",")+"\n"+good[f.Name]+"\n")
		header, row, _ := strings.Cut(out, "\n")
		if want := strings.Join(append(append(f.In, f.Added()...), "error"), ","); err != nil || header != want {
			t.Errorf("%s: %v, %q; declared %q", f.Name, err, header, want)
		}
		for i, cell := range strings.Split(strings.TrimSpace(row), ",")[:len(f.In)+len(f.Out)] {
			if x, err := strconv.ParseFloat(cell, 64); err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
				t.Errorf("%s, column %d: %q", f.Name, i+1, cell)
			}
		}
	}
}

func rowsOf(n int) []byte {
	var b bytes.Buffer
	b.WriteString("name,base_volume,base_strength,base_extract,spirit_strength,target\n")
	for i := range n {
		fmt.Fprintf(&b, "batch %d,%.3f,%.2f,%.1f,%.1f,%.1f\n", i, 1+float64(i%19), 4+float64(i%50)/10, 20+float64(i%180), 40+float64(i%56), 16+float64(i%6))
	}
	return b.Bytes()
}

const benchRows = 100000

// The floor: the same rows read and written by encoding/csv alone.
func BenchmarkCSVCopy(b *testing.B) {
	in := rowsOf(benchRows)
	for b.Loop() {
		r, w := csv.NewReader(bytes.NewReader(in)), csv.NewWriter(io.Discard)
		for {
			row, err := r.Read()
			if err != nil {
				break
			}
			_ = w.Write(row)
		}
		w.Flush()
	}
}

func BenchmarkColumnFortify(b *testing.B) {
	in := rowsOf(benchRows)
	for b.Loop() {
		if err := functions[0].Stream(context.Background(), bytes.NewReader(in), io.Discard, io.Discard, rows.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
