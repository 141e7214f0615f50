package main

import (
	"math"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"example.org/mutage/blend"
	"example.org/mutage/blend/batch"
	"example.org/mutage/units"
)

// exportedWorkbook runs the example as its reader does and gives the workbook's path.
func exportedWorkbook(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "trials.xlsx")
	cmd := exec.Command("go", "run", ".", "-o", path)
	cmd.Dir = filepath.Join(root, "examples", "exporter")
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v: %v\n%s", cmd, err, out)
	}
	return path
}

// trials are the columns of the table, by the key before the unit.
func trials(t *testing.T, file *excelize.File) (columns map[string]string, rows int) {
	t.Helper()
	all, err := file.GetRows("Trials")
	ok(t, err)
	columns = map[string]string{}
	for i, name := range all[0] {
		key, _, _ := strings.Cut(name, ",")
		columns[key], err = excelize.ColumnNumberToName(i + 1)
		ok(t, err)
	}
	return columns, len(all) - 1
}

// compareTrials blends what stands in the input cells of each row and holds the
// row against it: the live hand check always, the balance where it is to be that
// of the inputs.
func compareTrials(t *testing.T, engine string, file *excelize.File, balanceToo bool, shown func(cell string) (string, error)) {
	t.Helper()
	columns, rows := trials(t, file)
	if rows != 200 {
		t.Fatalf("%d trial blends", rows)
	}
	compared := 0
	for row := 2; row <= rows+1; row++ {
		read := func(key string) float64 {
			text, err := shown(columns[key] + strconv.Itoa(row))
			if err != nil {
				t.Fatal(err)
			}
			x, err := strconv.ParseFloat(text, 64)
			if err != nil {
				t.Fatalf("%s, row %d: %s is %q", engine, row, key, text)
			}
			return x
		}
		liquid := func(n string) blend.Component {
			return blend.Component{Name: n, Volume: units.Volume(read("volume_" + n)), Strength: units.Strength(read("strength_" + n)),
				Extract: units.Concentration(read("extract_" + n)), Acid: units.Concentration(read("acid_" + n))}
		}
		check, err := blend.Additive(liquid("1"), liquid("2"))
		ok(t, err)
		for _, f := range check.Figures() {
			if f.Formula == "" && !balanceToo {
				continue
			}
			half := 0.51 * math.Pow10(int(f.Value.Exponent()))
			if want := f.Value.InexactFloat64(); !(math.Abs(read(f.Key)-want) <= half) {
				t.Errorf("%s, row %d: %s is %v, by the library %s", engine, row, f.Key, read(f.Key), f.Fixed())
			}
			compared++
		}
	}
	t.Logf("%s: %d cells of 200 trial blends agree with the library", engine, compared)
}

// changeInputs writes other liquids into the input cells of the table.
func changeInputs(t *testing.T, file *excelize.File) {
	t.Helper()
	columns, rows := trials(t, file)
	for row := 2; row <= rows+1; row++ {
		for key, x := range map[string]float64{"volume_1": 11.2, "strength_1": 8.3, "extract_1": 120.5, "acid_1": 7.1, "strength_2": 60 + float64(row)/20, "extract_2": 4} {
			ok(t, file.SetCellFloat("Trials", columns[key]+strconv.Itoa(row), x, -1, 64))
		}
	}
}

// chartOf is the text of the workbook's chart.
func chartOf(t *testing.T, file *excelize.File) string {
	t.Helper()
	text, ok := file.Pkg.Load("xl/charts/chart1.xml")
	if !ok {
		t.Fatal("the workbook has no chart")
	}
	return string(text.([]byte))
}

// comparePlan holds the sheet of the plan against the plan: every value, and a
// method and a source beside it.
func comparePlan(t *testing.T, engine string, file *excelize.File) {
	t.Helper()
	plan, err := batch.Demo().Work()
	ok(t, err)
	rows, err := file.GetRows("Plan", excelize.Options{RawCellValue: true})
	ok(t, err)
	if len(rows) != len(plan.Figures())+1 {
		t.Fatalf("%s: %d rows for %d figures", engine, len(rows)-1, len(plan.Figures()))
	}
	for i, f := range plan.Figures() {
		row := rows[i+1]
		if x, err := strconv.ParseFloat(row[2], 64); err != nil || x != f.Value.InexactFloat64() || row[0] != f.Key {
			t.Errorf("%s: the plan's %s is %s, in the workbook %s is %s", engine, f.Key, f.Fixed(), row[0], row[2])
		}
		if len(row) < 7 || row[5] == "" || row[6] == "" {
			t.Errorf("%s: %s has no method or source", engine, f.Key)
		}
	}
}

// The workbook of the example holds what its reader is promised: live hand
// checks that agree with the library, number formats, notes, a chart.
func TestExampleWorkbook(t *testing.T) {
	path := exportedWorkbook(t)
	file, err := excelize.OpenFile(path)
	ok(t, err)
	computed := func(cell string) (string, error) {
		return file.CalcCellValue("Trials", cell, excelize.Options{RawCellValue: true})
	}
	compareTrials(t, "excelize", file, true, computed)
	columns, _ := trials(t, file)
	notes, err := file.GetComments("Trials")
	ok(t, err)
	if len(notes) != len(columns) {
		t.Errorf("%d notes on %d columns", len(notes), len(columns))
	}
	for _, note := range notes {
		if len(strings.Split(note.Text, "\n")) < 3 {
			t.Errorf("the note of %s has no method or source: %q", note.Cell, note.Text)
		}
	}
	if shown, err := file.GetCellValue("Trials", columns["strength"]+"2"); err != nil || !strings.Contains(shown, ".") || len(shown) != len("5.72") {
		t.Errorf("a strength is shown as %q, %v", shown, err)
	}
	if drawn := chartOf(t, file); !strings.Contains(drawn, "Trials!"+columns["strength"]+"2:") || !strings.Contains(drawn, "Trials!"+columns["volume_2"]+"2:") {
		t.Errorf("the chart does not draw the strength against the spirit: %.200s", drawn)
	}
	if drawn := chartOf(t, file); strings.Contains(drawn, "noFill") || !strings.Contains(drawn, "volume at 20 C, L") {
		t.Errorf("the chart has series without a line, or an axis without a name: %.200s", drawn)
	}
	comparePlan(t, "excelize", file)
	changeInputs(t, file)
	compareTrials(t, "excelize, inputs changed", file, false, computed)
}

// Opened by an engine that no one here wrote, the workbook shows the library's
// figures and recomputes them when inputs are changed.
func TestOfficeProgramOpensTheExample(t *testing.T) {
	office(t)
	path := exportedWorkbook(t)
	for _, changed := range []bool{false, true} {
		if changed {
			file, err := excelize.OpenFile(path)
			ok(t, err)
			changeInputs(t, file)
			ok(t, file.Save())
		}
		saved, err := excelize.OpenFile(convert(t, path, "xlsx", "xlsx", "C.UTF-8"))
		ok(t, err)
		engine := map[bool]string{false: "office", true: "office, inputs changed"}[changed]
		comparePlan(t, engine, saved)
		compareTrials(t, engine, saved, !changed, func(cell string) (string, error) {
			return saved.GetCellValue("Trials", cell, excelize.Options{RawCellValue: true})
		})
	}
}
