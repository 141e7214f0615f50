package main

import (
	"errors"
	"fmt"
	"strings"

	"example.org/mutage/additions/sugar"
	"example.org/mutage/blend"
	"example.org/mutage/examples/worksheet/internal/sheet"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/figure"
	"example.org/mutage/units"
)

// liquids are what the arguments of blend, fortify and explain say.
type liquids struct {
	poured []blend.Poured
	dry    []dry        // sweeteners by weight
	fill   units.Volume // "fill 1 quart"
}

// dry is a sweetener that was weighed in.
type dry struct {
	sweetener sugar.Sweetener
	mass      units.Mass
}

// readLiquids reads all arguments and names what has no name: "wine" and "spirit".
// Where a wine is fortified, what is poured on it is a spirit, however weak.
func readLiquids(args []string, fortified bool) (liquids, error) {
	var l liquids
	var faults []error
	for _, text := range args {
		if v, is, err := fillOnly(text); is {
			if err == nil && l.fill > 0 {
				err = fmt.Errorf("%w: %q: one \"fill\" is enough", errUsage, text)
			}
			l.fill, faults = v, append(faults, err)
			continue
		}
		if s, m, err := sugar.ParseAmount(text); err == nil {
			l.dry = append(l.dry, dry{s, m})
			continue
		}
		p, err := blend.ParsePoured(text)
		l.poured, faults = append(l.poured, p), append(faults, err)
	}
	l.name(fortified)
	return l, errors.Join(faults...)
}

// fillOnly reads "fill 1 quart", without a liquid.
func fillOnly(text string) (units.Volume, bool, error) {
	t := strings.TrimSpace(text)
	if len(t) < 5 || !strings.EqualFold(t[:5], "fill ") || strings.Contains(t, " at ") || strings.Contains(t, " with ") {
		return 0, false, nil
	}
	v, err := units.ParseVolume(t[5:])
	return v, true, err
}

// name names liquids by what they are, with a number where there are several.
func (l *liquids) name(fortified bool) {
	count := map[string]int{}
	for i := range l.poured {
		p := &l.poured[i]
		if p.Name == "" {
			p.Name = orName("", *p)
			if fortified && i > 0 && p.StrengthStated {
				p.Name = "spirit"
			}
			count[p.Name]++
			if n := count[p.Name]; n > 1 {
				p.Name = fmt.Sprintf("%s %d", p.Name, n)
			}
		}
	}
}

// components are the liquids as the library mixes them.
func (l *liquids) components() []blend.Component {
	var out []blend.Component
	for _, p := range l.poured {
		out = append(out, p.Component)
	}
	return out
}

// notKnown names the liquids whose extract was not stated.
func (l *liquids) notKnown() []string {
	var out []string
	for _, p := range l.poured {
		if p.ExtractNotKnown {
			out = append(out, p.Name)
		}
	}
	return out
}

// unsaid is the sentence on an extract that was not stated.
func unsaid(names []string) string {
	return fmt.Sprintf("The extract of %s is not stated: extract, sugar, reading and weight of the result are left out. Say it: \"... with 142 g/L\", or \"no extract\".", strings.Join(names, " and "))
}

var (
	pouring = figure.Method{Method: "balance of masses, true volumes", Source: density.SourceMixture}
	byHand  = figure.Method{Method: "volumes simply added", Source: "paper and pencil"}
)

// pour is a liquid to pour as a figure, with its weight behind it.
func pour(f *sheet.Form, key string, c blend.Component, notKnown bool) (units.Figure, error) {
	g := pouring.Of(key, c.Name, float64(c.Volume), 4, "L")
	if notKnown {
		return g, nil
	}
	m, err := c.Weight()
	if err == nil {
		g.Note = "or " + f.System.Mass(m) + " on the scale"
	}
	return g, err
}

// mixed are the figures of a blend; what rests on an extract that was not stated
// is left out.
func mixed(m blend.Mixture, notKnown bool) []units.Figure {
	all := m.Figures()
	keys := []string{"volume", "mass", "strength", "extract"}
	if notKnown {
		keys = []string{"volume", "strength"}
	}
	return pick(all, keys...)
}

// contraction is the volume that mixing takes; a page leaves out what a jug does
// not show.
func contraction(f *sheet.Form, m blend.Mixture) []units.Figure {
	g := as(one(m.Figures(), "contraction"), "contraction", "volume lost by mixing")
	if f.JSON || f.CSV {
		return []units.Figure{g}
	}
	if shown := f.System.VolumeLimit(m.Volume, max(m.Contraction, -m.Contraction)); strings.Trim(shown, "0.") == "" {
		return nil
	}
	if g.Value.IsNegative() {
		g.Name, g.Value = "volume won by mixing", g.Value.Neg()
	}
	return []units.Figure{g}
}

// makes is a blend in a sentence.
func makes(f *sheet.Form, m blend.Mixture) string {
	return makesOf(f, m) + " with " + said(f, one(m.Figures(), "extract")) + " of extract"
}

// makesOf is the same without its extract.
func makesOf(f *sheet.Form, m blend.Mixture) string {
	all := m.Figures()
	return said(f, one(all, "volume")) + " of " + said(f, one(all, "strength"))
}
