package main

import (
	"flag"
	"fmt"
	"io"
	"strings"

	"example.org/mutage/blend"
	"example.org/mutage/blend/batch"
	"example.org/mutage/examples/worksheet/internal/sheet"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/say"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// explaining is what "explain" was asked.
type explaining struct {
	form     sheet.Form
	is       map[string]bool
	reads    gravity.SG
	at, made units.Temperature
	to       units.Strength
	wine     blend.Component
	spirit   blend.Component
}

// explain compares what a blend reads with what was poured.
func explain(set *flag.FlagSet, args []string, out io.Writer) error {
	e := explaining{at: units.Celsius(20), made: units.Celsius(20)}
	set.Var(&e.reads, "reads", "what the hydrometer shows in the rested, degassed blend")
	set.Var(&e.at, "at", "temperature of that sample")
	set.Var(&e.made, "hydrometer", "temperature the hydrometer is made for")
	set.Var(&e.to, "to", `strength wanted: what each explanation would take to mend, "20 % vol"`)
	rest, is, err := parseSheet(&e.form, set, args)
	if err != nil {
		return err
	}
	e.is = is
	l, err := readLiquids(rest, true)
	if err != nil {
		return err
	}
	if !is["reads"] || len(l.poured) != 2 || len(l.dry) > 0 || l.fill > 0 {
		return fmt.Errorf(`%w: explain -reads 1.030 WINE SPIRIT, for example "3 L at 6.1 %% vol with 142 g/L" "0.7 L at 75 %% vol"`, errUsage)
	}
	for _, p := range l.poured {
		if p.Volume == 0 || p.Fill > 0 {
			return fmt.Errorf("%w: explain: how much of %s was poured?", errUsage, p.Name)
		}
		if p.ExtractNotKnown {
			return fmt.Errorf("%w: explain: the extract of %s is not stated: without it no reading can be expected", errUsage, p.Name)
		}
	}
	e.wine, e.spirit = l.poured[0].Component, l.poured[1].Component
	s := sheet.Sheet{Title: "Explain"}
	if err := e.fill(&s); err != nil {
		return e.form.System.Error(err)
	}
	return e.form.Print(s, out)
}

func (e *explaining) fill(s *sheet.Sheet) error {
	m, err := blend.Mix(e.wine, e.spirit)
	if err != nil {
		return err
	}
	is, err := gravity.NewHydrometer(e.made).CorrectIn(m.Strength, e.reads, e.at)
	if err != nil {
		return err
	}
	read := uncertainty.ToleranceInput("reading", float64(is), uncertainty.ToleranceHydrometer)
	f, err := blend.Explain(e.wine, e.spirit, is, e.wine.Tolerances(), e.spirit.Tolerances(), gravity.SG(read.Standard))
	if err != nil {
		return err
	}
	all := f.Figures()
	expected := as(one(all, "gravity"), "gravity_expected", "gravity expected of what was poured")
	reading := likeIt(expected, "gravity", "gravity of the blend, at 20 C", float64(is))
	reading.Method, reading.Source = shows.Method, shows.Source
	s.Add("check", "The blend", append([]units.Figure{reading, expected, as(one(all, "difference"), "difference", "reading less expected")}, mixed(f.Expected, false)...),
		"Taken for what was poured: a jug for the wine, the fill and the label of the bottle for the spirit. A hydrometer tells 1 % vol of the spirit by a few points only.")
	reads := "It reads "
	if e.is["at"] || e.is["hydrometer"] {
		reads = at20(&e.form) + " it would read "
	}
	if f.Agrees {
		s.Answer = []string{fmt.Sprintf(reads+"%s, and what was poured should read %s: they agree.", say.Gravity(float64(is)), say.Gravity(float64(f.Expected.Gravity))),
			"That does not show that the strength is right: the reading cannot find a spirit that is a little weaker."}
		if e.is["to"] {
			s.Answer = append(s.Answer, "As poured it has "+say.Strength(m.Strength)+e.mends(m)+".")
		}
		return nil
	}
	s.Answer = []string{fmt.Sprintf(reads+"%s, but what was poured should read %s: more than their uncertainty.", say.Gravity(float64(is)), say.Gravity(float64(f.Expected.Gravity)))}
	s.Findings = append(s.Findings, batch.Finding{Key: "blend_reading", Severity: batch.Warn, Text: "Measure the blend itself (worksheet strength -hydrometer -refractometer, or boil it off) before you trust one of the explanations."})
	var lines []string
	if len(f.Explanations) == 0 {
		lines = []string{"No single error of what was poured makes that reading: look at the reading, its temperature, or gas in the sample."}
	}
	s.Add("explanations", "What would explain it, each alone, the likeliest first", e.figures(f), lines...)
	return nil
}

// figures are what each explanation would make of the quantity, beside what was
// taken for it, and of the strength, beside what would mend that.
func (e *explaining) figures(f blend.Finding) []units.Figure {
	var out []units.Figure
	for i, x := range f.Explanations {
		key := fmt.Sprintf("explanation_%d", i+1)
		for _, g := range pick(f.Figures(), key+"_suspect_"+x.Quantity, key+"_strength") {
			name, note := x.Quantity+" of "+x.Component, "instead of "+e.taken(x)
			if g.Key == key+"_strength" {
				name, note = "  the blend's strength then", strings.TrimPrefix(e.mends(x.Result), "; ")
			}
			out = append(out, as(noted(g, note), g.Key, name))
		}
	}
	return out
}

// taken is what the quantity was taken for.
func (e *explaining) taken(x blend.Explanation) string {
	switch x.Quantity {
	case "volume":
		return e.form.System.Volume(units.Volume(x.From))
	case "strength":
		return say.Strength(units.Strength(x.From))
	}
	return say.Concentration(units.Concentration(x.From))
}

// mends is what brings a blend to the strength wanted.
func (e *explaining) mends(m blend.Mixture) string {
	if !e.is["to"] {
		return ""
	}
	spirit, wine := e.spirit, e.wine
	spirit.Volume, wine.Volume = 0, 0
	f, err := blend.Repair(m, spirit, wine, e.to)
	if err != nil {
		return "; " + err.Error()
	}
	what := spirit.Name
	if m.Strength > e.to {
		what = wine.Name
	}
	return fmt.Sprintf("; %s of %s brings it to %s", e.form.System.Volume(f.Spirit), what, say.Strength(e.to))
}
