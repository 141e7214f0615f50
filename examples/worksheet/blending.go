package main

import (
	"errors"
	"flag"
	"fmt"
	"io"

	"example.org/mutage/blend"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// liquids parses flags and the liquids between them.
func liquids(set *flag.FlagSet, f *form, args []string) ([]blend.Component, error) {
	f.flags(set)
	rest, err := parse(set, args)
	if err != nil {
		return nil, err
	}
	if err := f.check(); err != nil {
		return nil, err
	}
	var cs []blend.Component
	var faults []error
	for i, text := range rest {
		c, err := readLiquid(text)
		if c.Name == "" {
			c.Name = fmt.Sprintf("liquid %d", i+1)
		}
		cs, faults = append(cs, c), append(faults, err)
	}
	return cs, errors.Join(faults...)
}

func blendCommand(set *flag.FlagSet, args []string, out io.Writer) error {
	var f form
	cellar := units.Celsius(20)
	set.Var(&cellar, "at", "temperature at which the hydrometer is read")
	working := set.Bool("working", false, "print the hand check as lines to follow on paper")
	cs, err := liquids(set, &f, args)
	if err != nil {
		return err
	}
	if len(cs) == 0 {
		return fmt.Errorf(`%w: blend "3 L at 6.1 %% vol with 142 g/L" "0.7 L at 75 %% vol" ...`, errUsage)
	}
	m, err := blend.Mix(cs...)
	if err != nil {
		return err
	}
	hand, err := blend.Additive(cs...)
	if err != nil {
		return err
	}
	shows, err := m.Shows(gravity.NewHydrometer(units.Celsius(20)), cellar)
	if err != nil {
		return err
	}
	p := page{Title: "Blend", Answer: []string{fmt.Sprintf("It makes %s of %s with %s of sugar.",
		said(f.volume("", m.Volume)), said(f.strength("", m.Strength)), said(f.concentration("", m.Extract)))}}
	s := section{Title: "The blend, rested"}
	s.add("volume at 20 C", f.volume("volume", m.Volume))
	s.add("less than was poured by", f.volume("contraction", m.Contraction))
	s.add("strength", f.plain("strength", float64(m.Strength), 2, "% vol"))
	s.add("strength by the hand rule", f.plain("strength_by_hand", hand.Strength.InexactFloat64(), 2, "% vol"))
	s.add("real extract, as sugar", f.plain("extract", float64(m.Extract), 1, "g/L"))
	s.add("the hydrometer (20 C) shows at "+f.temperature(cellar), f.gravity("blend_reading", shows))
	s.say("%s", blend.WarmBlend)
	p.Sections = append(p.Sections, s)
	if *working {
		p.Sections = append(p.Sections, paper(hand.Working))
	}
	return f.print(p, out)
}

func paper(lines []string) section {
	s := section{Title: "On paper"}
	for _, line := range lines {
		s.Lines = append(s.Lines, "  "+line)
	}
	return s
}

func fortify(set *flag.FlagSet, args []string, out io.Writer) error {
	var f form
	var target units.Strength
	var vessel blend.Vessel
	set.Var(&target, "to", `strength wanted, such as "20 % vol"`)
	set.Var(&vessel.Size, "vessel", "size of the jar to the brim, which the blend must fit")
	set.Var(&vessel.Headspace, "headspace", "volume to leave free in the jar")
	working := set.Bool("working", false, "print the hand check as lines to follow on paper")
	cs, err := liquids(set, &f, args)
	if err != nil {
		return err
	}
	if len(cs) != 2 || target == 0 {
		return fmt.Errorf(`%w: fortify -to "20 %% vol" WINE SPIRIT, for example "3 L at 6.1 %% vol with 142 g/L" "at 75 %% vol"`, errUsage)
	}
	var pour blend.Fortification
	if vessel.Size > 0 {
		pour, err = blend.FortifyIn(vessel, cs[0], cs[1], target)
	} else {
		pour, err = blend.Fortify(cs[0], cs[1], target)
	}
	if err != nil {
		return err
	}
	square, err := blend.Alligation(cs[0], cs[1], target)
	if err != nil {
		return err
	}
	m := pour.Result
	p := page{Title: "Fortify", Answer: []string{fmt.Sprintf("Pour %s of %s: it makes %s of %s with %s of sugar.", said(f.volume("", pour.Spirit)), cs[1].Name,
		said(f.volume("", m.Volume)), said(f.strength("", m.Strength)), said(f.concentration("", m.Extract)))}}
	s := section{Title: "At 20 C"}
	s.add("spirit", f.volume("spirit", pour.Spirit))
	s.add("spirit by the hand rule", f.volume("spirit_by_hand", units.Volume(square.Spirit.InexactFloat64())))
	s.add("the blend", f.volume("volume", m.Volume))
	s.add("spirit as a share of the blend", f.plain("spirit_share", 100*pour.Share(), 1, "%"))
	s.add("real extract, as sugar", f.plain("extract", float64(m.Extract), 1, "g/L"))
	s.add("hydrometer, rested", f.gravity("blend_reading", m.Gravity))
	s.say("%s", blend.WarmBlend)
	p.Sections = append(p.Sections, s)
	if *working {
		p.Sections = append(p.Sections, paper(square.Working))
	}
	return f.print(p, out)
}
