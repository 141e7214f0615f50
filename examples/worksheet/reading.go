package main

import (
	"flag"
	"fmt"
	"io"

	"example.org/mutage/abv"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/fields"

	"example.org/mutage/abv/spirit"
	"example.org/mutage/examples/worksheet/internal/page"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// readGravity corrects a reading and shows it on every scale.
func readGravity(set *flag.FlagSet, args []string, out io.Writer) error {
	var f page.Form
	at, made := units.Celsius(20), units.Celsius(20)
	var strength units.Strength
	f.Flags(set)
	set.Var(&at, "at", `temperature of the sample, such as "26 C"`)
	set.Var(&made, "hydrometer", "temperature the hydrometer is made for")
	set.Var(&strength, "strength", "strength of the liquid, if it has fermented")
	rest, err := parseForm(&f, set, args)
	if err != nil {
		return err
	}
	if len(rest) != 1 {
		return fmt.Errorf("%w: gravity READING, such as 1.057, 1057, \"17 P\", \"70 Oe\" or \"9.5 Be\"", errUsage)
	}
	reading, err := gravity.Parse(rest[0])
	if err != nil {
		return err
	}
	h := gravity.NewHydrometer(made)
	shown, warm := uncertainty.ToleranceInput("reading", float64(reading), uncertainty.ToleranceHydrometer), uncertainty.ToleranceInput("temperature", at.Celsius(), uncertainty.ToleranceThermometer)
	r, err := h.CorrectWithin(shown, warm)
	if strength > 0 {
		r, err = h.CorrectInWithin(uncertainty.Input{Name: "strength", Value: float64(strength)}, shown, warm)
	}
	if err != nil {
		return err
	}
	g := gravity.SG(r.Value)
	p := page.Page{Title: "Gravity", Answer: []string{fmt.Sprintf("At 20 C it would read %s.", f.Gravity("", r.Value).Fixed())}}
	s := page.Section{Title: "At 20 C"}
	s.Add("specific gravity 20/20", f.Within("gravity", r, "SG"))
	if g >= 1 {
		extract, err := g.Extract()
		if err != nil {
			return err
		}
		plato, _ := g.Plato()
		oechsle, _ := g.Oechsle()
		baume, _ := g.Baume()
		kg, err := g.Density()
		if err != nil {
			return err
		}
		s.Add("density", f.Plain("density", float64(kg), 2, "kg/m3"))
		s.Add("Plato, Brix (apparent once it ferments)", f.Plain("plato", float64(plato), 2, "% mass"))
		s.Add("Oechsle", f.Plain("oechsle", float64(oechsle), 1, "Oe"))
		s.Add("Baume, modulus 145", f.Plain("baume", float64(baume), 2, "Be"))
		s.Add("extract, as sugar", f.Plain("extract", float64(extract), 1, "g/L"))
		if all, err := abv.Potential(g, abv.Must); err == nil && strength == 0 {
			s.Add("fermented out it would reach", f.Strength("potential", all.Strength))
		}
	}
	s.Say("Assumed: %s; %s. Degas a fermenting sample first.", uncertainty.ToleranceHydrometer.Name, uncertainty.ToleranceThermometer.Name)
	p.Sections = append(p.Sections, s)
	return f.Print(p, out)
}

// strengthOf finds a strength from whatever pair of readings there is.
func strengthOf(set *flag.FlagSet, args []string, out io.Writer) error {
	var f page.Form
	var og, fg, hydrometer, wine, residue gravity.SG
	var refractometer fields.Number
	var alcoholometer units.Strength
	at := units.Celsius(20)
	f.Flags(set)
	set.Var(&og, "og", "gravity before fermentation (with -fg)")
	set.Var(&fg, "fg", "gravity now")
	set.Var(&hydrometer, "hydrometer", "true reading of a wine or fortified wine (with -refractometer)")
	set.Var(&refractometer, "refractometer", "its reading in Brix, true at 20 C")
	set.Var(&wine, "wine", "gravity of the wine (with -residue)")
	set.Var(&residue, "residue", "gravity with the alcohol boiled off, made up with water")
	set.Var(&alcoholometer, "alcoholometer", "what a glass alcoholometer shows in a spirit without sugar (with -at)")
	set.Var(&at, "at", "temperature of that spirit")
	rest, err := parseForm(&f, set, args)
	if err != nil {
		return err
	}
	if len(rest) > 0 {
		return fmt.Errorf("%w: strength takes flags only, found %q", errUsage, rest)
	}
	s := page.Section{Title: "At 20 C"}
	var strength units.Strength
	switch {
	case og > 0 && fg > 0:
		c, err := abv.Compare(og, fg, abv.Must)
		if err != nil {
			return err
		}
		r, err := abv.MassBalanceWithin(uncertainty.ToleranceInput("original gravity", float64(og), uncertainty.ToleranceHydrometer), uncertainty.ToleranceInput("gravity now", float64(fg), uncertainty.ToleranceHydrometer), abv.Must)
		if err != nil {
			return err
		}
		strength = c.Recommended.Strength
		s.AddSure(&f, "strength", "strength_by_balance", "% vol", r, uncertainty.ToleranceHydrometer)
		s.Add("sugar left", f.Plain("extract", float64(c.Recommended.Extract), 1, "g/L"))
		s.Add("carbon dioxide given off, per L of must", f.Plain("carbon_dioxide", float64(c.Recommended.CarbonDioxide), 1, "g/L"))
		for _, e := range c.Estimates[1:] { // the first is that strength
			if e.Err == nil {
				s.Add(e.Method, f.Plain("strength_"+e.Method, float64(e.Strength), 2, "% vol"))
			}
		}
		s.Say("Believe the first figure: %s.", c.Reason)
	case hydrometer > 0 && refractometer > 0:
		c, err := abv.TwoInstruments(hydrometer, gravity.Brix(refractometer))
		if err != nil {
			return err
		}
		r, err := abv.TwoInstrumentsWithin(uncertainty.ToleranceInput("hydrometer", float64(hydrometer), uncertainty.ToleranceHydrometer),
			uncertainty.ToleranceInput("refractometer", float64(refractometer), uncertainty.ToleranceRefractometer), abv.Solutes{})
		if err != nil {
			return err
		}
		strength = c.Strength
		s.AddSure(&f, "strength", "strength_by_two_instruments", "% vol", r, uncertainty.ToleranceHydrometer, uncertainty.ToleranceRefractometer)
		s.Add("extract", f.Plain("extract", float64(c.Extract), 0, "g/L"))
	case wine > 0 && residue > 0:
		e, err := abv.BoilOffInFull(wine, residue, abv.Must)
		if err != nil {
			return err
		}
		r, err := abv.BoilOffWithin(uncertainty.ToleranceInput("gravity of the wine", float64(wine), uncertainty.ToleranceHydrometer), uncertainty.ToleranceInput("gravity of the residue", float64(residue), uncertainty.ToleranceHydrometer))
		if err != nil {
			return err
		}
		strength = e.Strength
		s.AddSure(&f, "strength", "strength_by_boiling_off", "% vol", r, uncertainty.ToleranceHydrometer)
		s.Add("by Tabarie's rule", f.Plain("strength_tabarie", float64(e.Tabarie), 2, "% vol"))
		s.Add("extract", f.Plain("extract", float64(e.Extract), 1, "g/L"))
		s.Say("Spirit vapour burns: boil it off over no open flame, in moving air.")
	case alcoholometer > 0:
		if strength, err = spirit.TrueStrength(alcoholometer, at); err != nil {
			return err
		}
		proof, err := spirit.USProof(strength)
		if err != nil {
			return err
		}
		mass, err := abv.ByMass(strength)
		if err != nil {
			return err
		}
		s.Add("true strength", f.Plain("strength_by_alcoholometer", float64(strength), 2, "% vol"))
		s.Add("US proof, at 60 F", f.Plain("us_proof", proof, 1, "proof"))
		s.Add("by mass", f.Plain("mass_percent", float64(mass), 2, "% mass"))
	default:
		return fmt.Errorf("%w: strength wants -og and -fg, or -hydrometer and -refractometer, or -wine and -residue, or -alcoholometer", errUsage)
	}
	p := page.Page{Title: "Strength", Answer: []string{fmt.Sprintf("It has %s.", page.Said(f.Strength("", strength)))}, Sections: []page.Section{s}}
	return f.Print(p, out)
}
