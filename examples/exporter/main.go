// Exporter (go run . -o trials.xlsx) writes a workbook: the plan of a morello cherry
// wine, and 200 trial blends with live hand checks beside the balance of masses.
package main

import (
	"flag"
	"log"
	"slices"
	"strings"

	"example.org/mutage/blend"
	"example.org/mutage/blend/batch"
	"example.org/mutage/units"
	"github.com/xuri/excelize/v2"
)

func main() {
	out := flag.String("o", "trials.xlsx", "workbook to write")
	if flag.Parse(); flag.NArg() > 0 {
		log.Fatalf("%q is not understood: the exporter takes -o only", flag.Args())
	}
	plan, err := batch.Demo().Work()
	must(err)
	wine := blend.Component{Name: "morello wine", Volume: 3.05, Strength: 5.5, Extract: 165, Acid: 6.5}
	spirit := blend.Component{Name: "spirit", Strength: 40}
	trials := make([][]units.Figure, 200)
	for i := range trials {
		spirit.Volume = units.Volume(i+1) * 20 * units.Millilitre
		check, err := blend.Additive(wine, spirit)
		must(err)
		trials[i] = check.Figures()
	}
	b := book{excelize.NewFile()}
	b.list("Plan", plan.Figures())
	b.table("Trials", trials)
	b.chart("Trials", trials, "volume_2", "strength", "strength_by_hand")
	must(b.SetCalcProps(&excelize.CalcPropsOptions{FullCalcOnLoad: new(true)})) // who opens it computes it
	must(b.DeleteSheet("Sheet1"))
	must(b.SaveAs(*out))
}

func must(err error) {
	if err != nil {
		log.Fatal(err)
	}
}

type book struct{ *excelize.File }

func (b book) begin(sheet string, header []string) {
	_, err := b.NewSheet(sheet)
	must(err)
	must(b.SetSheetRow(sheet, "A1", &header))
	must(b.SetColWidth(sheet, "A", "Z", 20))
	must(b.SetPanes(sheet, &excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"}))
}

// cell is an address; column and row count from 0.
func cell(column, row int) string {
	name, _ := excelize.CoordinatesToCellName(column+1, row+1) // fails below 1 only
	return name
}

func index(of []units.Figure, key string) int {
	return slices.IndexFunc(of, func(f units.Figure) bool { return f.Key == key })
}

// put writes figures as numbers in their formats, or as their live formulas.
func (b book) put(sheet string, figures []units.Figure, at func(i int) string) {
	for i, f := range figures {
		format := f.NumberFormat()
		style, err := b.NewStyle(&excelize.Style{CustomNumFmt: &format})
		must(err)
		must(b.SetCellStyle(sheet, at(i), at(i), style))
		formula, err := f.FormulaAt(func(key string) (string, bool) { j := index(figures, key); return at(max(j, 0)), j >= 0 })
		if must(err); formula != "" {
			must(b.SetCellFormula(sheet, at(i), formula))
		} else {
			must(b.SetCellFloat(sheet, at(i), f.Value.InexactFloat64(), -1, 64))
		}
	}
}

// list writes a figure a row, in the order of units.FigureHeader.
func (b book) list(sheet string, figures []units.Figure) {
	b.begin(sheet, units.FigureHeader())
	for i, f := range figures {
		cells := []any{f.Key, f.Name, nil, f.Unit, nil, f.Method, f.Source, f.Note}
		if f.Uncertainty.Valid {
			cells[4] = f.Uncertainty.Decimal.InexactFloat64()
		}
		must(b.SetSheetRow(sheet, cell(0, i+1), &cells))
	}
	b.put(sheet, figures, func(i int) string { return cell(2, i+1) })
}

// table writes a batch a row; notes on the header say how its figures are found.
func (b book) table(sheet string, rows [][]units.Figure) {
	header, _ := units.FigureTable(rows)
	b.begin(sheet, header)
	for i, figures := range rows {
		b.put(sheet, figures, func(j int) string { return cell(j, i+1) })
	}
	for j, f := range rows[0] {
		must(b.AddComment(sheet, excelize.Comment{Cell: cell(j, 0), Text: strings.Join([]string{f.Name, f.Method, f.Source, f.Note}, "\n"), Width: 320, Height: 140}))
	}
}

// chart draws columns of a table against the column x.
func (b book) chart(sheet string, rows [][]units.Figure, x string, ys ...string) {
	at := func(key string, row int) string { return cell(index(rows[0], key), row) }
	column := func(key string) string { return sheet + "!" + at(key, 1) + ":" + at(key, len(rows)) }
	c, f := excelize.Chart{Type: excelize.Scatter}, rows[0][index(rows[0], x)]
	c.XAxis.Title.Paragraph = []excelize.RichTextRun{{Text: f.Name + ", " + f.Unit}}
	for _, y := range ys {
		c.Series = append(c.Series, excelize.ChartSeries{Name: sheet + "!" + at(y, 0), Categories: column(x), Values: column(y), Line: excelize.LineOptions{Type: excelize.LineSolid}})
	}
	must(b.AddChart(sheet, cell(len(rows[0])+1, 1), &c))
}
