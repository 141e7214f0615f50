package main

import (
	"flag"
	"fmt"
	"io"
	"strings"

	"example.org/mutage/abv"
	"example.org/mutage/abv/spirit"
	"example.org/mutage/examples/worksheet/internal/sheet"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/figure"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// strengthAsked is what "strength" was asked.
type strengthAsked struct {
	form                              sheet.Form
	is                                map[string]bool
	og, fg, hydrometer, wine, residue gravity.SG
	brix                              brix
	alcoholometer                     units.Strength
	extract                           units.Concentration
	at, ogAt, made                    units.Temperature
	label                             string
	fruit                             string
}

// A way to find a strength: the flags that it needs, those that may go with it,
// and what does it.
type way struct {
	needs, with []string
	find        func(a *strengthAsked, s *sheet.Sheet) error
}

var ways = []way{
	{[]string{"og", "fg"}, []string{"at", "og-at", "made-for", "fruit"}, byBalance},
	{[]string{"hydrometer", "refractometer"}, []string{"at", "made-for", "fruit"}, byInstruments},
	{[]string{"wine", "residue"}, []string{"at", "made-for", "fruit"}, byBoiling},
	{[]string{"alcoholometer"}, []string{"at", "extract"}, byAlcoholometer},
	{[]string{"label"}, nil, byLabel},
}

func (w way) String() string { return "-" + strings.Join(w.needs, " and -") }

// strengthOf finds a strength from whatever pair of readings there is, or from a
// label.
func strengthOf(set *flag.FlagSet, args []string, out io.Writer) error {
	a := strengthAsked{at: units.Celsius(20), ogAt: units.Celsius(20), made: units.Celsius(20)}
	set.Var(&a.og, "og", "gravity before fermentation (with -fg)")
	set.Var(&a.fg, "fg", "gravity now")
	set.Var(&a.hydrometer, "hydrometer", "its reading in a wine or fortified wine (with -refractometer)")
	set.Var(&a.brix, "refractometer", `its reading in the same, "7.2 Bx"`)
	set.Var(&a.wine, "wine", "gravity of the wine (with -residue)")
	set.Var(&a.residue, "residue", "gravity with the alcohol boiled off, made up with water")
	set.Var(&a.alcoholometer, "alcoholometer", "what a glass alcoholometer shows in a spirit")
	set.Var(&a.extract, "extract", `extract of that spirit, as of a liqueur: "300 g/L"`)
	set.StringVar(&a.label, "label", "", `strength as a label or a book states it: "80 proof", "70 degrees UK proof", "33.3 % mass", "40 % vol at 15 C"`)
	set.Var(&a.at, "at", "temperature of the sample at the reading now")
	set.Var(&a.ogAt, "og-at", "temperature of the must at -og")
	set.Var(&a.made, "made-for", "temperature the hydrometer is made for")
	set.StringVar(&a.fruit, "fruit", "", "what of the extract is not sugar: juice, skins or a fruit such as \"morello cherry\"")
	rest, is, err := parseSheet(&a.form, set, args)
	if err != nil {
		return err
	}
	if len(rest) > 0 {
		return fmt.Errorf("%w: strength takes flags only, found %q", errUsage, rest)
	}
	a.is = is
	w, err := a.way()
	if err != nil {
		return err
	}
	s := sheet.Sheet{Title: "Strength"}
	if err := w.find(&a, &s); err != nil {
		return a.form.System.Error(err)
	}
	return a.form.Print(s, out)
}

// way is the one that was asked for; two at once and flags that it does not use
// are errors.
func (a *strengthAsked) way() (way, error) {
	var found []way
	var all []string
	for _, w := range ways {
		all = append(all, w.String())
		for _, n := range w.needs {
			if a.is[n] {
				found = append(found, w)
				break
			}
		}
	}
	switch {
	case len(found) == 0:
		return way{}, fmt.Errorf("%w: strength wants %s", errUsage, strings.Join(all, ", or "))
	case len(found) > 1:
		return way{}, fmt.Errorf("%w: %v and %v: expected one of them", errUsage, found[0], found[1])
	}
	w := found[0]
	for _, n := range w.needs {
		if !a.is[n] {
			return way{}, fmt.Errorf("%w: strength: -%s is missing: %v belong together", errUsage, n, w)
		}
	}
	for _, n := range []string{"at", "og-at", "made-for", "extract", "fruit"} {
		if a.is[n] && !contains(w.with, n) {
			return way{}, fmt.Errorf("%w: -%s does nothing beside %v%s", errUsage, n, w, a.helps(n))
		}
	}
	return w, nil
}

func contains(list []string, name string) bool {
	for _, l := range list {
		if l == name {
			return true
		}
	}
	return false
}

// helps says which ways use a flag.
func (a *strengthAsked) helps(name string) string {
	var with []string
	for _, w := range ways {
		if contains(w.with, name) {
			with = append(with, w.String())
		}
	}
	return "; it goes with " + strings.Join(with, ", or ")
}

// answer is the first line.
func (a *strengthAsked) answer(s *sheet.Sheet, g units.Figure) {
	text := "It has " + said(&a.form, g)
	if _, _, limit := a.form.Shown(g); limit != "" {
		text += " ± " + limit
	}
	s.Answer = []string{text + "."}
}

func assumed(r uncertainty.Result, of ...uncertainty.Tolerance) string {
	var names []string
	for _, t := range of {
		names = append(names, t.Name)
	}
	return fmt.Sprintf("Assumed: %s. What would make it surer first: %s.", strings.Join(names, "; "), r.Ranked()[0].Name)
}

// sugarsOf are the figures of the sugar in an extract.
func (a *strengthAsked) sugarsOf(extract units.Figure, c units.Concentration) ([]units.Figure, string, error) {
	n, err := abv.NotSugarOf(strings.ToLower(a.fruit))
	if err != nil {
		return nil, "", misread("fruit", err)
	}
	sugars, err := n.Sugars(c, 1)
	if err != nil {
		return nil, "", err
	}
	return sugarFigures(extract, n, sugars), notSugarSaid(n), nil
}

func byLabel(a *strengthAsked, s *sheet.Sheet) error {
	is, err := spirit.ParseStrength(a.label)
	if err != nil {
		return misread("label", err)
	}
	return a.ofSpirit(s, figure.Method{Method: "the label's basis changed to 20 C by volume", Source: density.SourceEthanol}.Of("strength", "strength at 20 C", float64(is), 2, "% vol"), is)
}

func byAlcoholometer(a *strengthAsked, s *sheet.Sheet) error {
	is, err := spirit.TrueStrength(a.alcoholometer, a.at)
	if err != nil {
		return err
	}
	method := figure.Method{Method: "density of ethanol and water at the reading's temperature, glass expansion", Source: density.SourceEthanol + "; ISO 1768"}
	if a.is["extract"] {
		if is, err = spirit.Unobscured(is, a.extract); err != nil {
			return err
		}
		method = figure.Method{Method: method.Method + "; sugar's part of the density taken off", Source: density.SourceMixture}
	}
	return a.ofSpirit(s, method.Of("strength_by_alcoholometer", "true strength", float64(is), 2, "% vol"), is)
}

// ofSpirit is a strength on every basis in use.
func (a *strengthAsked) ofSpirit(s *sheet.Sheet, first units.Figure, is units.Strength) error {
	all, err := spirit.ProofFigures(is)
	if err != nil {
		return err
	}
	uk, err := spirit.BritishProof(is)
	if err != nil {
		return err
	}
	a.answer(s, first)
	figures := []units.Figure{first}
	for _, g := range pick(all, "us_proof", "strength_by_mass", "density", "alcohol_per_litre") {
		if g.Key == "strength_by_mass" {
			g.Key = "mass_percent"
		}
		g.Formula = ""
		figures = append(figures, g)
		if g.Key == "us_proof" {
			figures = append(figures, figure.Method{Method: "parts of proof spirit, volumes at 60 F", Source: density.SourceEthanol}.Of("uk_proof", "UK proof", uk, 1, "degrees"))
		}
	}
	s.Add("spirit", at20(&a.form), figures, "By mass and density: for a spirit without sugar.")
	if a.is["extract"] {
		s.Steps[0].Lines = []string{"By mass and density: for a spirit of this strength without the sugar."}
	}
	return nil
}
