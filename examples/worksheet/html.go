package main

import (
	"bytes"
	"slices"
	"strings"

	"example.org/mutage/blend/batch"
	"example.org/mutage/examples/worksheet/internal/sheet"
	"example.org/mutage/units"
)

// written are the figures beside which the print leaves room for what was measured.
var written = map[string]bool{"original_reading": true, "stop_reading": true, "racked_measured": true, "spirit_to_pour": true, "wine_to_pour": true,
	"volume_measured": true, "blend_reading": true, "bottles": true, "potassium_metabisulfite": true, "potassium_sorbate": true, "oak": true}

// printed is a plan as a page to print.
func printed(p batch.Plan, f *sheet.Form, b batch.Batch) (string, error) {
	out := sheet.Print{Title: p.Title, At: "volumes at " + b.Units.Temperature(b.Cellar()) + "; " + meaning, Answer: slices.Concat(p.Answer, others(p, f)),
		Drawings: drawings(p, b), Foot: "Printed by worksheet plan -html; the same in full: plan -show details"}
	if out.Title == "" {
		out.Title = "Your batch"
	}
	for _, step := range shownSteps(p, f) {
		if step.Key == "drink" {
			out.Steps = append(out.Steps, verdictBlock(p, f))
		}
		title := step.Title
		if when := dates(step); when != "" {
			title += ", " + when
		}
		out.Steps = append(out.Steps, sheet.Block{Title: title, Note: step.Mind, Tick: step.Key != "drink", Rows: f.Rows(usual(step, f), written), Lines: step.Lines})
	}
	var text bytes.Buffer
	err := sheet.WriteHTML(out, &text)
	return text.String(), err
}

// verdictBlock is the verdict of the page, line by line.
func verdictBlock(p batch.Plan, f *sheet.Form) sheet.Block {
	l, _ := p.Liquid("reachable")
	out := sheet.Block{Title: "Will yeast stay still? " + stillness[l.Verdict.Outlook], Note: "judged at the low ends"}
	for _, b := range told(l, f) {
		out.Rows = append(out.Rows, barrierCells(b))
	}
	out.Lines = verdictLines(l)
	return out
}

// drawings are the jar once filled, and the readings from the must to the blend.
func drawings(p batch.Plan, b batch.Batch) []sheet.Drawing {
	is := map[string]units.Figure{}
	for _, s := range p.Steps {
		for _, g := range s.Figures {
			is[g.Key] = g
		}
	}
	value := func(key string) float64 { return is[key].Value.InexactFloat64() }
	var out []sheet.Drawing
	if value("spirit_to_pour") > 0 {
		layers := []sheet.Layer{{Name: "wine " + b.Units.Volume(units.Volume(value("wine_to_pour"))), Volume: value("wine_to_pour"), Shade: "#bbb"},
			{Name: "spirit " + b.Units.Volume(units.Volume(value("spirit_to_pour"))), Volume: value("spirit_to_pour"), Shade: "#e4e4e4"}}
		out = append(out, sheet.Jar(layers, value("vessel")))
	}
	var marks []sheet.Stand
	for _, m := range []sheet.Stand{{Name: "must", Reading: value("original_reading")}, {Name: "from", Reading: value("stop_from_reading"), Band: true},
		{Name: "stop", Reading: value("stop_reading")}, {Name: "not below", Reading: value("stop_to_reading"), Band: true}, {Name: "blend", Reading: value("blend_reading")}} {
		if m.Reading > 0 {
			marks = append(marks, m)
		}
	}
	return slices.DeleteFunc(append(out, sheet.Fall(marks)), func(h sheet.Drawing) bool { return strings.TrimSpace(string(h)) == "" })
}
