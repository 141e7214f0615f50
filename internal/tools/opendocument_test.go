package main

import (
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// The head of a flat OpenDocument sheet (OASIS ODF 1.3): a cell a row.
const openDocument = `<?xml version="1.0" encoding="UTF-8"?>
<office:document xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0"
 xmlns:of="urn:oasis:names:tc:opendocument:xmlns:of:1.2" office:version="1.3" office:mimetype="application/vnd.oasis.opendocument.spreadsheet">
<office:body><office:spreadsheet><table:table table:name="Figures">
`

// The same live formulas stand in a sheet of OpenDocument, with "of:=" before
// them and addresses in brackets, and the office program computes them there.
func TestOfficeProgramComputesOpenDocument(t *testing.T) {
	office(t)
	sets := liveFigures(t, riper)
	row := map[string]int{}
	for _, set := range slices.Sorted(maps.Keys(sets)) {
		for _, f := range sets[set] {
			row[set+" "+f.Key] = len(row) + 1
		}
	}
	var sheet strings.Builder
	sheet.WriteString(openDocument)
	for _, set := range slices.Sorted(maps.Keys(sets)) {
		for _, f := range sets[set] {
			text, err := f.FormulaAt(func(key string) (string, bool) {
				n, ok := row[set+" "+key]
				return fmt.Sprintf("[.A%d]", n), ok
			})
			ok(t, err)
			cell := `office:value="` + f.Fixed() + `"`
			if text != "" {
				cell = `table:formula="of:=` + text + `"`
			}
			fmt.Fprintf(&sheet, "<table:table-row><table:table-cell office:value-type=\"float\" %s/></table:table-row>\n", cell)
		}
	}
	sheet.WriteString("</table:table></office:spreadsheet></office:body></office:document>\n")
	path := filepath.Join(t.TempDir(), "live.fods")
	ok(t, os.WriteFile(path, []byte(sheet.String()), 0o644))
	saved, err := os.ReadFile(convert(t, path, "csv:Text - txt - csv (StarCalc):59,34,76,1,,0,false,false", "csv", "C.UTF-8"))
	ok(t, err)
	values := strings.Split(string(saved), "\n")
	b := book{cell: map[string]string{}}
	for name, n := range row {
		b.cell[name] = fmt.Sprint(n)
	}
	b.compare(t, "office, OpenDocument", sets, func(n string) (string, error) {
		var i int
		_, err := fmt.Sscan(n, &i)
		return values[i-1], err
	})
}
