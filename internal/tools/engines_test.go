package main

import (
	"fmt"
	"maps"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"example.org/mutage/units"
)

// figureColumn is that of the value among the cells of a figure; the set stands
// in front of them.
var valueColumn = string(rune('A' + 1 + slices.Index(units.FigureHeader(), "value")))

// A book is all live figures on one sheet, a row a figure.
type book struct {
	file *excelize.File
	cell map[string]string // of a set and a key
}

// bookOf writes figures as an exporter does: a live figure as its formula, no
// value beside it, so that who shows a number has computed it.
func bookOf(t *testing.T, sets map[string][]units.Figure) book {
	t.Helper()
	b := book{excelize.NewFile(), map[string]string{}}
	ok(t, b.file.SetSheetName(b.file.GetSheetName(0), sheetName))
	row := 1
	for _, set := range slices.Sorted(maps.Keys(sets)) {
		for _, f := range sets[set] {
			row++
			b.cell[set+" "+f.Key] = fmt.Sprintf("%s%d", valueColumn, row)
		}
	}
	for set, figures := range sets {
		for _, f := range figures {
			cell := b.cell[set+" "+f.Key]
			text, err := f.FormulaAt(func(key string) (string, bool) { at, ok := b.cell[set+" "+key]; return at, ok })
			ok(t, err)
			_, row, err := excelize.SplitCellName(cell)
			ok(t, err)
			cells := []any{set}
			for _, c := range f.Cells() {
				cells = append(cells, c)
			}
			ok(t, b.file.SetSheetRow(sheetName, fmt.Sprintf("A%d", row), &cells))
			ok(t, b.file.SetCellValue(sheetName, cell, nil))
			if text != "" {
				ok(t, b.file.SetCellFormula(sheetName, cell, text))
			} else {
				ok(t, b.file.SetCellFloat(sheetName, cell, f.Value.InexactFloat64(), -1, 64))
			}
			format := f.NumberFormat()
			style, err := b.file.NewStyle(&excelize.Style{CustomNumFmt: &format})
			ok(t, err)
			ok(t, b.file.SetCellStyle(sheetName, cell, cell, style))
		}
	}
	return b
}

func ok(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// change puts the inputs of other figures in the cells, and nothing else.
func (b book) change(t *testing.T, sets map[string][]units.Figure) {
	t.Helper()
	for set, figures := range sets {
		for _, f := range figures {
			if f.Formula == "" {
				ok(t, b.file.SetCellFloat(sheetName, b.cell[set+" "+f.Key], f.Value.InexactFloat64(), -1, 64))
			}
		}
	}
}

// compare holds every formula cell against the library, to the cell's places.
func (b book) compare(t *testing.T, engine string, sets map[string][]units.Figure, shown func(cell string) (string, error)) {
	t.Helper()
	compared := 0
	for set, figures := range sets {
		for _, f := range figures {
			if f.Formula == "" {
				continue
			}
			text, err := shown(b.cell[set+" "+f.Key])
			if err != nil {
				t.Errorf("%s, %s, %s: %v", engine, set, f.Key, err)
				continue
			}
			got, err := strconv.ParseFloat(text, 64)
			half := 0.51 * math.Pow10(int(f.Value.Exponent()))
			if want := f.Value.InexactFloat64(); err != nil || !(math.Abs(got-want) <= half+1e-9*math.Abs(want)) {
				t.Errorf("%s, %s: %s is %q in the workbook, %s in the library; formula %s", engine, set, f.Key, text, f.Fixed(), f.Formula)
			}
			compared++
		}
	}
	if compared < 60 {
		t.Errorf("%s: only %d formula cells compared", engine, compared)
	}
	t.Logf("%s: %d formula cells agree with the library to their places", engine, compared)
}

func (b book) library(cell string) (string, error) {
	return b.file.CalcCellValue(sheetName, cell, excelize.Options{RawCellValue: true})
}

// The library that writes the workbook computes it, before and after the inputs
// were changed.
func TestWorkbookLibraryRecomputesLiveFigures(t *testing.T) {
	first, second := liveFigures(t, morello), liveFigures(t, riper)
	b := bookOf(t, first)
	b.compare(t, "excelize", first, b.library)
	b.change(t, second)
	b.compare(t, "excelize, inputs changed", second, b.library)
}

// office is a program that opens workbooks, from another hand than this
// project's; the test that needs it is left out where there is none.
func office(t *testing.T) string {
	t.Helper()
	for _, name := range []string{"soffice", "libreoffice"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	t.Skip("neither soffice nor libreoffice is installed (Debian: libreoffice-calc-nogui): the workbook is not opened by a second engine")
	return ""
}

// convert opens a workbook in the office program, in a language, and gives what
// it saves in another format.
func convert(t *testing.T, path, to, extension, language string, more ...string) string {
	t.Helper()
	out := t.TempDir()
	args := append([]string{"-env:UserInstallation=file://" + filepath.Join(out, "profile"), "--headless", "--norestore", "--convert-to", to, "--outdir", out}, more...)
	cmd := exec.Command(office(t), append(args, path)...)
	cmd.Env = append(os.Environ(), "LC_ALL="+language, "LANG="+language)
	if text, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v: %v\n%s", cmd, err, text)
	}
	saved, err := filepath.Glob(filepath.Join(out, "*."+extension))
	if err != nil || len(saved) == 0 {
		t.Fatalf("%v saved nothing", cmd)
	}
	return saved[0]
}

// An engine that no one here wrote opens the workbook, computes what the library
// has, and computes anew when inputs are changed.
func TestOfficeProgramRecomputesLiveFigures(t *testing.T) {
	office(t)
	first, second := liveFigures(t, morello), liveFigures(t, riper)
	b := bookOf(t, first)
	computed := func(name string) func(string) (string, error) {
		path := filepath.Join(t.TempDir(), "live.xlsx")
		ok(t, b.file.SaveAs(path))
		file, err := excelize.OpenFile(convert(t, path, "xlsx", "xlsx", "C.UTF-8"))
		ok(t, err)
		return func(cell string) (string, error) {
			return file.GetCellValue(sheetName, cell, excelize.Options{RawCellValue: true})
		}
	}
	b.compare(t, "office", first, computed("first"))
	b.change(t, second)
	b.compare(t, "office, inputs changed", second, computed("second"))
}

// With decimal commas the program reads the same workbook, computes the same and
// shows commas, with the places of the number formats.
func TestOfficeProgramWithDecimalCommas(t *testing.T) {
	office(t)
	first := liveFigures(t, morello)
	b := bookOf(t, first)
	path := filepath.Join(t.TempDir(), "live.xlsx")
	ok(t, b.file.SaveAs(path))
	text, err := os.ReadFile(convert(t, path, "csv:Text - txt - csv (StarCalc):9,34,76,1,,0,false,true", "csv", "de_DE.UTF-8"))
	ok(t, err)
	rows := strings.Split(string(text), "\n")
	commas := 0
	column := int(valueColumn[0] - 'A')
	b.compare(t, "office with decimal commas", first, func(cell string) (string, error) {
		_, row, err := excelize.SplitCellName(cell)
		if err != nil {
			return "", err
		}
		shown := strings.Split(rows[row-1], "\t")[column]
		commas += strings.Count(shown, ",")
		return strings.ReplaceAll(shown, ",", "."), nil
	})
	if commas < 50 {
		t.Errorf("%d decimal commas: the program does not show numbers as the language does", commas)
	}
}

// What column writes, with semicolons and decimal commas, opens as numbers where
// people write so, and column reads what the program saves.
func TestOfficeProgramAndColumnReadEachOther(t *testing.T) {
	office(t)
	const german = "59,34,76,1,,0,false,true" // semicolons, UTF-8, cells as shown
	dir := t.TempDir()
	column := func(file string) [][]string {
		cmd := exec.Command("go", "run", "./examples/worksheet", "column", "stability", "-bom", file)
		cmd.Dir = root
		out, err := cmd.Output()
		ok(t, err)
		ok(t, os.WriteFile(filepath.Join(dir, "done.csv"), out, 0o644))
		var rows [][]string
		for _, line := range strings.Split(strings.TrimPrefix(strings.TrimSpace(string(out)), "\ufeff"), "\n") {
			rows = append(rows, strings.Split(line, ";"))
		}
		return rows
	}
	ok(t, os.WriteFile(filepath.Join(dir, "wines.csv"), []byte("strength;extract\n20,5;84\n17,25;131,5\n19;100\n"), 0o644))
	done := column(filepath.Join(dir, "wines.csv"))
	if len(done) != 4 || done[0][2] != "delle_units" {
		t.Fatalf("column wrote %q", done)
	}
	workbook := convert(t, filepath.Join(dir, "done.csv"), "xlsx", "xlsx", "de_DE.UTF-8", "--infilter=Text - txt - csv (StarCalc):"+german)
	file, err := excelize.OpenFile(workbook)
	ok(t, err)
	sheet := file.GetSheetName(0)
	for i, row := range done[1:] {
		for j, text := range row[:3] {
			cell, err := excelize.CoordinatesToCellName(j+1, i+2)
			ok(t, err)
			kept, err := file.GetCellValue(sheet, cell, excelize.Options{RawCellValue: true})
			ok(t, err)
			got, err := strconv.ParseFloat(kept, 64)
			want, err2 := strconv.ParseFloat(strings.ReplaceAll(text, ",", "."), 64)
			if err != nil || err2 != nil || got != want {
				t.Errorf("%s, written as %q, is %q in the program", cell, text, kept)
			}
		}
	}
	again := column(convert(t, workbook, "csv:Text - txt - csv (StarCalc):"+german, "csv", "de_DE.UTF-8"))
	for i, row := range done {
		if i >= len(again) || len(again[i]) < 5 || again[i][0] != row[0] || i > 0 && again[i][4] != row[2] {
			t.Errorf("row %d was %q; saved by the program and read again it is %q", i+1, row, again)
		}
	}
}
