package sheet

import (
	"html/template"
	"io"

	"example.org/mutage/units"
)

// A Print is a sheet to print on one page of A4 or Letter: boxes to tick, and room
// to write down what was measured. It needs nothing but itself.
type Print struct {
	Title, At string
	Answer    []string
	Drawings  []template.HTML
	Steps     []Block
	Foot      string
}

// A Block is a step of the print.
type Block struct {
	Title, Note string
	Tick        bool
	Rows        []Cells
	Lines       []string
}

// Cells are a figure in its columns; Write is the room for what was measured.
type Cells struct {
	Name, Value, Unit, Note string
	Write                   bool
}

// Rows are figures as the sheet shows them, with room beside those of these keys.
func (f *Form) Rows(figures []units.Figure, write map[string]bool) []Cells {
	var out []Cells
	for _, g := range figures {
		value, unit, limit := f.Shown(g)
		out = append(out, Cells{g.Name, value, unit, noted(g, limit), write[g.Key]})
	}
	return out
}

// WriteHTML writes the print.
func WriteHTML(p Print, out io.Writer) error { return printed.Execute(out, p) }

var printed = template.Must(template.New("print").Parse(`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<title>{{.Title}}</title>
<style>
@page { margin: 10mm }
body { font: 8.6pt/1.22 serif; margin: 0 auto; max-width: 190mm; color: #000; background: #fff }
h1 { font-size: 12pt; margin: 0 }
h1 small, h2 small { font-weight: normal; font-size: 8.6pt; float: right }
h2 { font-size: 9pt; margin: 4pt 0 0; border-top: 0.5pt solid #000; break-after: avoid }
p { margin: 1pt 0 }
.answer { border: 1pt solid #000; padding: 2pt 5pt; margin: 3pt 0; font-size: 9.6pt }
.box { display: inline-block; width: 7pt; height: 7pt; border: 0.7pt solid #000; margin-right: 4pt }
table { border-collapse: collapse; width: 100% }
td { padding: 0 4pt 0 0; vertical-align: baseline }
td:nth-child(1) { width: 30% }
td:nth-child(2) { width: 9%; text-align: right }
td:nth-child(3) { width: 9% }
td:nth-child(5) { width: 17% }
.write { border-bottom: 0.5pt dotted #000 }
.top { display: flex; gap: 8pt; align-items: flex-start }
.top .answer { flex: 1 }
.drawings { display: flex; gap: 4pt; margin: 3pt 0 }
section { break-inside: avoid }
</style>
</head>
<body>
<h1>{{.Title}} <small>{{.At}}</small></h1>
<div class="top">
<div class="answer">{{range .Answer}}<p>{{.}}</p>{{end}}</div>
<div class="drawings">{{range .Drawings}}{{.}}{{end}}</div>
</div>
{{range .Steps}}<section>
<h2>{{if .Tick}}<span class="box"></span>{{end}}{{.Title}} <small>{{.Note}}</small></h2>
{{if .Rows}}<table>{{range .Rows}}<tr><td>{{.Name}}</td><td>{{.Value}}</td><td>{{.Unit}}</td><td>{{.Note}}</td><td{{if .Write}} class="write"{{end}}></td></tr>
{{end}}</table>
{{end}}{{range .Lines}}<p>{{.}}</p>
{{end}}</section>
{{end}}<p>{{.Foot}}</p>
</body>
</html>
`))
