package main

import (
	"flag"
	"fmt"
	"io"

	"example.org/mutage/abv"
	"example.org/mutage/additions/sugar"
	"example.org/mutage/blend"
	"example.org/mutage/examples/worksheet/internal/sheet"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/figure"
	"example.org/mutage/units"
)

var shows = figure.Method{Method: "density of the three components at the temperature of the sample, glass expansion", Source: density.SourceMixture + "; ISO 1768"}

// blendCommand is what liquids make, poured together.
func blendCommand(set *flag.FlagSet, args []string, out io.Writer) error {
	f := sheet.Form{OnPaper: true}
	at, made := units.Celsius(20), units.Celsius(20)
	set.Var(&at, "at", "temperature at which the hydrometer is read")
	set.Var(&made, "hydrometer", "temperature the hydrometer is made for")
	rest, is, err := parseSheet(&f, set, args)
	if err != nil {
		return err
	}
	if len(rest) == 0 {
		return fmt.Errorf(`%w: blend "3 L at 6.1 %% vol with 142 g/L" "0.7 L at 75 %% vol" and so on`, errUsage)
	}
	l, err := readLiquids(rest, false)
	if err != nil {
		return err
	}
	if err := l.topUp(); err != nil {
		return f.System.Error(err)
	}
	m, err := blend.Mix(l.components()...)
	if err != nil {
		return f.System.Error(err)
	}
	hand, err := blend.Additive(l.components()...)
	if err != nil {
		return err
	}
	wet := m
	if m, err = l.sweeten(m); err != nil {
		return err
	}
	s := sheet.Sheet{Title: "Blend"}
	notKnown := l.notKnown()
	if err := pours(&s, &f, &l); err != nil {
		return err
	}
	figures := append(mixed(m, len(notKnown) > 0), contraction(&f, wet)...)
	figures = append(figures, byHand.Of("strength_by_hand", "strength of the liquids by the hand rule", hand.Strength.InexactFloat64(), 2, "% vol"))
	lines := []string{blend.WarmBlend}
	s.Answer = []string{fmt.Sprintf("It makes %s, sugar and all else dissolved.", makes(&f, m))}
	if len(notKnown) > 0 {
		s.Answer = []string{fmt.Sprintf("It makes about %s; extract not stated.", makesOf(&f, m)), unsaid(notKnown)}
		if is["at"] || is["hydrometer"] {
			return fmt.Errorf("%w: -at and -hydrometer go with liquids whose extract is stated: no reading without it", errUsage)
		}
	} else {
		reading, err := m.Shows(gravity.NewHydrometer(made), at)
		if err != nil {
			return err
		}
		figures = append(figures, shows.Of("blend_reading", "hydrometer for "+f.System.Temperature(made)+", read at "+f.System.Temperature(at), float64(reading), 4, "SG"))
	}
	s.Add("blend", "The blend, rested, at 20 C", figures, lines...)
	if f.Working {
		s.Add("hand", "On paper", nil, paper(hand.Working)...)
	}
	return f.Print(s, out)
}

// topUp gives the liquid that fills up its volume.
func (l *liquids) topUp() error {
	if l.fill > 0 {
		return fmt.Errorf("%w: \"fill\" wants a liquid that fills up: \"fill 4 L at 40 %% vol\"", errUsage)
	}
	for i := range l.poured {
		p := &l.poured[i]
		if p.Fill == 0 {
			if p.Volume == 0 {
				return fmt.Errorf("%w: how much of %s? Each liquid of a blend has an amount, \"3 L at ...\" or \"fill 4 L at ...\"", errUsage, p.Name)
			}
			continue
		}
		others := append(append([]blend.Component{}, l.components()[:i]...), l.components()[i+1:]...)
		for _, o := range l.poured[i+1:] {
			if o.Fill > 0 {
				return fmt.Errorf("%w: one liquid fills up, not two", errUsage)
			}
		}
		there, err := blend.Mix(others...)
		if err != nil {
			return err
		}
		f, err := blend.TopUp(there.Component("what is there"), p.Component, p.Fill)
		if err != nil {
			return err
		}
		p.Volume = f.Spirit
	}
	return nil
}

// sweeten adds what was weighed in.
func (l *liquids) sweeten(m blend.Mixture) (blend.Mixture, error) {
	for _, d := range l.dry {
		w, err := abv.Compose(m.Strength, m.Extract)
		if err != nil {
			return m, err
		}
		a, err := sugar.Sweeten(w, m.Volume, d.sweetener, d.mass)
		if err != nil {
			return m, err
		}
		sweet, err := blend.Mix(blend.Component{Name: "blend", Volume: a.Volume, Strength: a.After.Strength, Extract: a.After.Extract})
		if err != nil {
			return m, err
		}
		m = sweet
	}
	return m, nil
}

// pours is what goes in, by volume and by weight.
func pours(s *sheet.Sheet, f *sheet.Form, l *liquids) error {
	var figures []units.Figure
	for i, p := range l.poured {
		g, err := pour(f, fmt.Sprintf("poured_%d", i+1), p.Component, p.ExtractNotKnown)
		if err != nil {
			return err
		}
		figures = append(figures, g)
	}
	for i, d := range l.dry {
		figures = append(figures, figure.Stated.Of(fmt.Sprintf("sweetener_%d", i+1), d.sweetener.Name, float64(d.mass), 1, "g"))
	}
	s.Add("pour", "Poured, at 20 C", figures)
	return nil
}

func paper(lines []string) []string {
	var out []string
	for _, line := range lines {
		out = append(out, "  "+line)
	}
	return out
}
