package main

import (
	"example.org/mutage/abv"
	"example.org/mutage/blend/batch"
	"example.org/mutage/examples/worksheet/internal/sheet"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// away says that the readings need a correction.
func (a *strengthAsked) away() bool { return a.is["at"] || a.is["made-for"] || a.is["og-at"] }

func byBalance(a *strengthAsked, s *sheet.Sheet) error {
	h, og, fg := gravity.NewHydrometer(a.made), a.og, a.fg
	if a.away() {
		var err error
		if og, err = h.Correct(a.og, a.ogAt); err != nil {
			return err
		}
		if fg, err = abv.Must.TrueFinal(h, og, a.fg, a.at); err != nil {
			return err
		}
	}
	c, err := abv.Compare(og, fg, abv.Must)
	if err != nil {
		return err
	}
	r, err := abv.MassBalanceWithin(uncertainty.ToleranceInput("original gravity", float64(og), uncertainty.ToleranceHydrometer),
		uncertainty.ToleranceInput("gravity now", float64(fg), uncertainty.ToleranceHydrometer), abv.Must)
	if err != nil {
		return err
	}
	is := c.Recommended.Figures()
	first := within(as(one(is, "strength"), "strength_by_balance", "strength"), r)
	a.answer(s, first)
	if c.Recommended.Strength > abv.MostByYeast {
		const slip = "This is stronger than yeast makes: read both gravities again, or spirit is in it, and then they do not tell the strength."
		s.Findings = append(s.Findings, batch.Finding{Key: "strength", Severity: batch.Warn, Text: slip})
		s.Answer = append([]string{slip}, s.Answer...)
	}
	extract := as(one(is, "extract"), "extract", "extract left")
	sugars, why, err := a.sugarsOf(extract, c.Recommended.Extract)
	if err != nil {
		return err
	}
	figures := append([]units.Figure{first, extract}, sugars...)
	figures = append(figures, as(one(is, "carbon_dioxide"), "carbon_dioxide", "carbon dioxide given off, per litre of must"))
	if a.away() {
		figures = append(figures, correcting.Of("original_gravity", "gravity before, at 20 C", float64(og), 4, "SG"), correcting.Of("gravity", "gravity now, at 20 C", float64(fg), 4, "SG"))
	}
	s.Add("strength", at20(&a.form), figures, assumed(r, uncertainty.ToleranceHydrometer), why)
	var others []units.Figure
	for _, e := range c.Estimates[1:] { // the first is that strength
		if e.Err != nil {
			continue
		}
		for _, g := range pick(c.Figures(), e.Key) {
			g.Note = "" // what it assumes is long
			others = append(others, as(g, e.Key, e.Method))
		}
	}
	s.Add("methods", "By other methods", others, "Believe the first figure: "+c.Reason+".")
	return nil
}

func byInstruments(a *strengthAsked, s *sheet.Sheet) error {
	is, brix := a.hydrometer, gravity.Brix(a.brix)
	if a.away() {
		var err error
		if is, brix, err = (abv.Solutes{}).TrueReadings(gravity.NewHydrometer(a.made), a.hydrometer, gravity.NewRefractometer(), brix, a.at); err != nil {
			return err
		}
	}
	c, err := abv.TwoInstrumentsIn(is, brix, abv.Solutes{})
	if err != nil {
		return err
	}
	r, err := abv.TwoInstrumentsWithin(uncertainty.ToleranceInput("hydrometer", float64(is), uncertainty.ToleranceHydrometer),
		uncertainty.ToleranceInput("refractometer", float64(brix), uncertainty.ToleranceRefractometer), abv.Solutes{})
	if err != nil {
		return err
	}
	return a.composed(s, c.Figures(), "strength_by_two_instruments", c.Extract, r, uncertainty.ToleranceHydrometer, uncertainty.ToleranceRefractometer)
}

func byBoiling(a *strengthAsked, s *sheet.Sheet) error {
	wine, residue := a.wine, a.residue
	if a.away() {
		var err error
		if wine, residue, err = abv.TrueBoilOff(gravity.NewHydrometer(a.made), a.wine, a.residue, a.at); err != nil {
			return err
		}
	}
	e, err := abv.BoilOffInFull(wine, residue, abv.Must)
	if err != nil {
		return err
	}
	r, err := abv.BoilOffWithin(uncertainty.ToleranceInput("gravity of the wine", float64(wine), uncertainty.ToleranceHydrometer),
		uncertainty.ToleranceInput("gravity of the residue", float64(residue), uncertainty.ToleranceHydrometer))
	if err != nil {
		return err
	}
	all := e.Figures()
	if err := a.composed(s, all, "strength_by_boiling_off", e.Extract, r, uncertainty.ToleranceHydrometer); err != nil {
		return err
	}
	step := &s.Steps[0]
	step.Figures = append(step.Figures, as(one(all, "strength_tabarie"), "strength_tabarie", "by Tabarie's rule"))
	step.Lines = append(step.Lines, "Spirit vapour burns: boil it off over no open flame, in moving air.")
	return nil
}

// composed puts down what was found of a liquid.
func (a *strengthAsked) composed(s *sheet.Sheet, all []units.Figure, key string, extract units.Concentration, r uncertainty.Result, of ...uncertainty.Tolerance) error {
	first := within(as(one(all, "strength"), key, "strength"), r)
	a.answer(s, first)
	left := as(one(all, "extract"), "extract", "extract")
	sugars, why, err := a.sugarsOf(left, extract)
	if err != nil {
		return err
	}
	figures := append([]units.Figure{first, left}, sugars...)
	if a.away() {
		figures = append(figures, as(one(all, "gravity"), "gravity", "gravity at 20 C"))
	}
	s.Add("strength", at20(&a.form), figures, assumed(r, of...), why)
	return nil
}
