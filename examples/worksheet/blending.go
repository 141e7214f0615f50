package main

import (
	"errors"
	"flag"
	"fmt"
	"io"

	"example.org/mutage/blend"
	"example.org/mutage/gravity"

	"example.org/mutage/additions/law"
	"example.org/mutage/additions/stability"
	"example.org/mutage/examples/worksheet/internal/page"
	"example.org/mutage/units"
)

// liquids parses flags and the liquids between them.
func liquids(set *flag.FlagSet, f *page.Form, args []string) ([]blend.Component, error) {
	f.Flags(set)
	rest, err := parseForm(f, set, args)
	if err != nil {
		return nil, err
	}
	var cs []blend.Component
	var faults []error
	for i, text := range rest {
		c, err := blend.ParseComponent(text)
		if c.Name == "" {
			c.Name = fmt.Sprintf("liquid %d", i+1)
		}
		cs, faults = append(cs, c), append(faults, err)
	}
	return cs, errors.Join(faults...)
}

func blendCommand(set *flag.FlagSet, args []string, out io.Writer) error {
	var f page.Form
	cellar := units.Celsius(20)
	set.Var(&cellar, "at", "temperature at which the hydrometer is read")
	cs, err := liquids(set, &f, args)
	if err != nil {
		return err
	}
	if len(cs) == 0 {
		return fmt.Errorf(`%w: blend "3 L at 6.1 %% vol with 142 g/L" "0.7 L at 75 %% vol" and so on`, errUsage)
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
	p := page.Page{Title: "Blend", Answer: []string{fmt.Sprintf("It makes %s of %s with %s of extract, mostly sugar.",
		page.Said(f.Volume("", m.Volume)), page.Said(f.Strength("", m.Strength)), page.Said(f.Concentration("", m.Extract)))}}
	s := page.Section{Title: "The blend, rested"}
	s.Add("volume at 20 C", f.Volume("volume", m.Volume))
	s.Add("volume lost by mixing", f.Volume("contraction", m.Contraction))
	s.Add("strength", f.Plain("strength", float64(m.Strength), 2, "% vol"))
	s.Add("strength by the hand rule", f.Plain("strength_by_hand", hand.Strength.InexactFloat64(), 2, "% vol"))
	s.Add("real extract, as sugar", f.Plain("extract", float64(m.Extract), 1, "g/L"))
	s.Add("the hydrometer (20 C) shows at "+f.Temperature(cellar), f.Gravity("blend_reading", float64(shows)))
	s.Say("%s", blend.WarmBlend)
	p.Sections = append(p.Sections, s)
	if f.Show == "working" {
		p.Sections = append(p.Sections, paper(hand.Working))
	}
	return f.Print(p, out)
}

func paper(lines []string) page.Section {
	s := page.Section{Title: "On paper"}
	for _, line := range lines {
		s.Lines = append(s.Lines, "  "+line)
	}
	return s
}

func fortify(set *flag.FlagSet, args []string, out io.Writer) error {
	var f page.Form
	var target units.Strength
	var vessel blend.Vessel
	set.Var(&target, "to", `strength wanted, such as "20 % vol"`)
	set.Var(&vessel.Size, "vessel", "size of the jar to the brim, which the blend must fit")
	set.Var(&vessel.Headspace, "headspace", "volume to leave free in the jar")
	cs, err := liquids(set, &f, args)
	if err != nil {
		return err
	}
	if target == 0 && len(cs) >= 2 {
		return choices(&f, vessel, cs[0], cs[1:], out)
	}
	if len(cs) != 2 {
		return fmt.Errorf(`%w: fortify -to "20 %% vol" WINE SPIRIT, for example "3 L at 6.1 %% vol with 142 g/L" "at 75 %% vol"`, errUsage)
	}
	var pour blend.Fortification
	if vessel != (blend.Vessel{}) {
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
	p := page.Page{Title: "Fortify", Answer: []string{fmt.Sprintf("Pour %s of %s: it makes %s of %s with %s of extract, mostly sugar.", page.Said(f.Volume("", pour.Spirit)), cs[1].Name,
		page.Said(f.Volume("", m.Volume)), page.Said(f.Strength("", m.Strength)), page.Said(f.Concentration("", m.Extract)))}}
	s := page.Section{Title: "At 20 C"}
	s.Add("spirit", f.Volume("spirit", pour.Spirit))
	s.Add("spirit by the hand rule", f.Volume("spirit_by_hand", units.Volume(square.Spirit.InexactFloat64())))
	s.Add("the blend", f.Volume("volume", m.Volume))
	s.Add("spirit as a share of the blend", f.Percent("spirit_share", pour.Share(), 1))
	s.Add("real extract, as sugar", f.Plain("extract", float64(m.Extract), 1, "g/L"))
	s.Add("hydrometer, rested", f.Gravity("blend_reading", float64(m.Gravity)))
	s.Say("%s", blend.WarmBlend)
	for _, c := range law.At(law.Cautions(law.What{Spirit: cs[1].Strength}), law.StepPour) {
		if c.Lead || f.Details() {
			s.Say("%s", c)
		}
	}
	p.Sections = append(p.Sections, s)
	if f.Show == "working" {
		p.Sections = append(p.Sections, paper(square.Working))
	}
	return f.Print(p, out)
}

// choices is what each spirit at hand would take to each strength.
func choices(f *page.Form, vessel blend.Vessel, base blend.Component, spirits []blend.Component, out io.Writer) error {
	p := page.Page{Title: "Choices", Answer: []string{"What to pour on " + page.Said(f.Volume("", base.Volume)) + " of " + base.Name + ", by the strength wanted:"}}
	for _, spirit := range spirits {
		s := page.Section{Title: fmt.Sprintf("%s, %s", spirit.Name, page.Said(f.Strength("", spirit.Strength)))}
		for target := units.Strength(16); target <= 22; target++ {
			free := spirit
			free.Volume = 0
			pour, err := blend.Fortify(base, free, target)
			if err != nil {
				s.Say("%s: %v.", page.Said(f.Strength("", target)), err)
				continue
			}
			delle, err := stability.DelleUnits(target, pour.Result.Extract)
			if err != nil {
				return err
			}
			g := f.Volume(fmt.Sprintf("spirit_to_%v", float64(target)), pour.Spirit)
			note := fmt.Sprintf("%s, %s Delle units", page.Said(f.Concentration("", pour.Result.Extract)), units.Round(delle, 0))
			if spirit.Volume > 0 && pour.Spirit > spirit.Volume {
				note += ", more than at hand"
			}
			if vessel != (blend.Vessel{}) {
				if _, err := blend.FortifyIn(vessel, base, free, target); errors.Is(err, blend.ErrUnreachable) {
					note += ", does not fit the jar"
				} else if err != nil {
					return err
				}
			}
			s.Add(page.Said(f.Strength("", target)), g, note)
		}
		p.Sections = append(p.Sections, s)
	}
	return f.Print(p, out)
}
