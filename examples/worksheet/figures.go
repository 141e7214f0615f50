package main

import (
	"flag"
	"strings"

	"example.org/mutage/examples/worksheet/internal/sheet"
	"example.org/mutage/internal/figure"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
	"github.com/shopspring/decimal"
)

// parseSheet is parse for a command that prints a sheet.
func parseSheet(f *sheet.Form, set *flag.FlagSet, args []string) (rest []string, is map[string]bool, err error) {
	f.Flags(set)
	if rest, err = parse(set, args); err == nil {
		err = f.Check()
	}
	return rest, given(set), err
}

// pick is the figures of these keys, in this order; what a result leaves out is
// left out.
func pick(figures []units.Figure, keys ...string) []units.Figure {
	var out []units.Figure
	for _, k := range keys {
		for _, g := range figures {
			if g.Key == k {
				out = append(out, g)
			}
		}
	}
	return out
}

// one is the figure of this key.
func one(figures []units.Figure, key string) units.Figure {
	for _, g := range figures {
		if g.Key == key {
			return g
		}
	}
	return units.Figure{}
}

// as is a figure under another key and name, without the formula, whose keys it
// no longer has beside it.
func as(g units.Figure, key, name string) units.Figure {
	g.Key, g.Name, g.Formula = key, name, ""
	return g
}

// noted is a figure with a note.
func noted(g units.Figure, note string) units.Figure {
	g.Note = note
	return g
}

// likeIt is another value of the same method and unit.
func likeIt(g units.Figure, key, name string, x float64) units.Figure {
	g = as(g, key, name)
	g.Value, g.Uncertainty = units.Round(x, -g.Value.Exponent()), decimal.NullDecimal{}
	g.Coverage = 0
	return g
}

// within puts the uncertainty of a result to a figure.
func within(g units.Figure, r uncertainty.Result) units.Figure {
	if u := units.Round(r.Standard, -g.Value.Exponent()+2); u.IsPositive() {
		g.Uncertainty = decimal.NullDecimal{Decimal: u, Valid: true}
		g.Coverage = figure.Coverage(r)
	}
	return g
}

// said is a figure in a sentence, as the sheet shows it.
func said(f *sheet.Form, g units.Figure) string {
	value, unit, _ := f.Shown(g)
	return strings.TrimSpace(value + " " + unit)
}

// at20 is the temperature of all results, in the units of the page.
func at20(f *sheet.Form) string { return "At " + f.System.Temperature(units.Celsius(20)) }
