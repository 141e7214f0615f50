package main

import (
	"fmt"
	"math"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"

	"example.org/mutage/blend"
	"example.org/mutage/units"
)

// The hand check divides to six places, a cell in binary floating point.
const asByHand = 0.5e-6 * (1 + 1e-6)

const sheetName = "Blend"

// A sheet is a workbook under construction, one figure a row.
type sheet struct {
	t    *testing.T
	file *excelize.File
	rows int
}

func newSheet(t *testing.T) *sheet {
	s := &sheet{t: t, file: excelize.NewFile()}
	s.must(s.file.SetSheetName(s.file.GetSheetName(0), sheetName))
	s.row("name", "value", "unit", "uncertainty", "method", "source")
	return s
}

func (s *sheet) must(err error) {
	s.t.Helper()
	if err != nil {
		s.t.Fatal(err)
	}
}

func (s *sheet) row(cells ...any) {
	s.t.Helper()
	s.rows++
	s.must(s.file.SetSheetRow(sheetName, fmt.Sprintf("A%d", s.rows), &cells))
}

// put writes a figure as an exporter would: its texts as they are, value and
// uncertainty as numbers, the value in its number format. It returns the cell
// of the value.
func (s *sheet) put(f units.Figure) (cell string) {
	s.t.Helper()
	var row []any
	for i, text := range f.Cells() {
		if number, err := strconv.ParseFloat(text, 64); err == nil && (i == 2 || i == 4) {
			row = append(row, number)
			continue
		}
		row = append(row, text)
	}
	s.row(row...)
	format := f.NumberFormat()
	style, err := s.file.NewStyle(&excelize.Style{CustomNumFmt: &format})
	s.must(err)
	cell = fmt.Sprintf("C%d", s.rows)
	s.must(s.file.SetCellStyle(sheetName, cell, cell, style))
	return cell
}

// compute writes a formula in a row of its own.
func (s *sheet) compute(name, formula, unit string) (cell string) {
	s.t.Helper()
	s.row("", name, nil, unit)
	cell = fmt.Sprintf("C%d", s.rows)
	s.must(s.file.SetCellFormula(sheetName, cell, formula))
	return cell
}

// reopened is the workbook after a way over the disk.
func (s *sheet) reopened() *sheet {
	s.t.Helper()
	path := filepath.Join(s.t.TempDir(), "blend.xlsx")
	s.must(s.file.SaveAs(path))
	s.must(s.file.Close())
	file, err := excelize.OpenFile(path)
	s.must(err)
	s.t.Cleanup(func() { s.must(file.Close()) })
	return &sheet{s.t, file, s.rows}
}

// equal compares what the workbook computes in a cell with the hand check.
func (s *sheet) equal(what, cell string, want decimal.Decimal) {
	s.t.Helper()
	text, err := s.file.CalcCellValue(sheetName, cell, excelize.Options{RawCellValue: true})
	s.must(err)
	got, err := strconv.ParseFloat(text, 64)
	s.must(err)
	if math.Abs(got-want.InexactFloat64()) > asByHand {
		s.t.Errorf("%s: the workbook computes %s, the library by hand %s", what, text, want)
	}
}

func figure(name string, x float64, places int32, unit string) units.Figure {
	return units.Figure{Name: name, Value: units.Round(x, places), Unit: unit}
}

// A workbook with the figures of a blend computes the hand check, in formulas
// of its own, to what blend.Additive and blend.Alligation give.
func TestWorkbookComputesTheHandCheck(t *testing.T) {
	wine := blend.Component{Name: "morello wine", Volume: 3.05, Strength: 6.1, Extract: 142, Acid: 6.5}
	for _, c := range []struct {
		name   string
		spirit blend.Component
		target units.Strength
	}{
		{"neutral spirit", blend.Component{Name: "spirit", Volume: 26 * units.USFluidOunce, Strength: 40}, 20},
		{"strong spirit", blend.Component{Name: "spirit", Volume: 0.735, Strength: 75}, 20},
		{"sweet liqueur", blend.Component{Name: "liqueur", Volume: 1.25, Strength: 35, Extract: 210, Acid: 1.2}, 17.5},
	} {
		t.Run(c.name, func(t *testing.T) {
			hand, err := blend.Additive(wine, c.spirit)
			if err != nil {
				t.Fatal(err)
			}
			noLimit := c.spirit
			noLimit.Volume = 0
			square, err := blend.Alligation(wine, noLimit, c.target)
			if err != nil {
				t.Fatal(err)
			}
			s := newSheet(t)
			put := func(of blend.Component) (volume, strength, extract, acid string) {
				return s.put(figure(of.Name+" volume", float64(of.Volume), 6, "L")), s.put(figure(of.Name+" strength", float64(of.Strength), 6, "% vol")),
					s.put(figure(of.Name+" extract", float64(of.Extract), 6, "g/L")), s.put(figure(of.Name+" acid", float64(of.Acid), 6, "g/L"))
			}
			v1, s1, e1, a1 := put(wine)
			v2, s2, e2, a2 := put(c.spirit)
			target := s.put(figure("target", float64(c.target), 6, "% vol"))
			mean := func(x1, x2 string) string { return fmt.Sprintf("(%s*%s+%s*%s)/(%s+%s)", v1, x1, v2, x2, v1, v2) }
			volume := s.compute("volume by hand", v1+"+"+v2, "L")
			strength := s.compute("strength by hand", mean(s1, s2), "% vol")
			extract := s.compute("extract by hand", mean(e1, e2), "g/L")
			acid := s.compute("acid by hand", mean(a1, a2), "g/L")
			baseParts := s.compute("parts of wine", fmt.Sprintf("ABS(%s-%s)", s2, target), "")
			spiritParts := s.compute("parts of spirit", fmt.Sprintf("ABS(%s-%s)", target, s1), "")
			spirit := s.compute("spirit by hand", fmt.Sprintf("%s*%s/%s", v1, spiritParts, baseParts), "L")

			s = s.reopened()
			s.equal("volume", volume, hand.Volume)
			s.equal("strength", strength, hand.Strength)
			s.equal("extract", extract, hand.Extract)
			s.equal("acid", acid, hand.Acid)
			s.equal("parts of the base", baseParts, square.BaseParts)
			s.equal("parts of the spirit", spiritParts, square.SpiritParts)
			s.equal("spirit to pour", spirit, square.Spirit)
		})
	}
}

// A figure survives the workbook: the number to its last digit, the places it
// is shown with, and the texts beside it.
func TestWorkbookKeepsFigures(t *testing.T) {
	pour, err := blend.Fortify(blend.Component{Name: "morello wine", Volume: 3.05, Strength: 6.1, Extract: 142}, blend.Component{Strength: 75}, 20)
	if err != nil {
		t.Fatal(err)
	}
	sure := figure("strength", float64(pour.Result.Strength), 2, "% vol")
	sure.Uncertainty, sure.Method, sure.Source = decimal.NullDecimal{Decimal: units.Round(0.05, 2), Valid: true}, "balance of masses", "OIML R 22 (1975)"
	figures := []units.Figure{
		sure,
		figure("spirit", float64(pour.Spirit), 3, "L"),
		figure("extract", float64(pour.Result.Extract), 0, "g/L"),
		figure("hydrometer", float64(pour.Result.Gravity), 4, "SG"),
		figure("swells by", -1e3*float64(pour.Result.Contraction), 1, "mL"),
		figure("target", 20, 1, "% vol"),
		{Name: "cellar", Value: decimal.New(12, 2), Unit: "L"}, // a decimal with a positive exponent
	}
	s := newSheet(t)
	var cells []string
	for _, f := range figures {
		cells = append(cells, s.put(f))
	}
	s = s.reopened()
	rows, err := s.file.GetRows(sheetName)
	s.must(err)
	for i, f := range figures {
		shown, err := s.file.GetCellValue(sheetName, cells[i])
		s.must(err)
		raw, err := s.file.GetCellValue(sheetName, cells[i], excelize.Options{RawCellValue: true})
		s.must(err)
		kept, err := decimal.NewFromString(raw)
		s.must(err)
		if shown != f.Fixed() || !kept.Equal(f.Value) {
			t.Errorf("%s: shown as %q in format %q and kept as %s, expected %s", f.Name, shown, f.NumberFormat(), raw, f.Fixed())
		}
		for j, text := range f.Cells() {
			if got := cellOf(rows[i+1], j); got != text {
				t.Errorf("%s, column %d: %q, expected %q", f.Name, j+1, got, text)
			}
		}
	}
}

// cellOf is a cell of a row, whose empty end is not kept.
func cellOf(row []string, i int) string {
	if i < len(row) {
		return row[i]
	}
	return ""
}
