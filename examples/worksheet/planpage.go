package main

import (
	"fmt"
	"strings"

	"example.org/mutage/additions"
	"example.org/mutage/blend"
	"example.org/mutage/units"
)

// page sets a worked job in the order it is used: the answer, the spindle, the
// spoons, the verdict, the hand rule, the bottles, the cautions.
func (j *job) page(b batch, f *form) (page, error) {
	p := page{Title: string(b.name), Answer: j.answer(b, f)}
	for _, make := range []func(batch, *form) (section, error){j.pouring, j.spindleReads, j.weighing, j.staysStill, j.handRule, j.bottling, j.cautions} {
		s, err := make(b, f)
		if err != nil {
			return page{}, err
		}
		if len(s.Figures)+len(s.Lines) > 0 {
			p.Sections = append(p.Sections, s)
		}
	}
	return p, nil
}

// said is a figure in a sentence.
func said(g units.Figure) string { return g.Fixed() + " " + g.Unit }

func (j *job) answer(b batch, f *form) []string {
	spirit := said(f.volume("", j.asMeasured)) + " of " + string(b.spirit)
	target := said(f.strength("", b.target))
	var out []string
	planned, wanted := f.strength("", j.planned.Strength), f.strength("", b.target)
	switch {
	case b.planned > 0 && !planned.Value.Equal(wanted.Value):
		out = append(out, fmt.Sprintf("%s of %s, as planned, makes %s, not %s: it takes %s.",
			said(f.volume("", b.planned)), b.spirit, said(planned), target, spirit))
	default:
		out = append(out, fmt.Sprintf("Pour %s on %s of wine: it makes %s.", spirit, said(f.volume("", j.base.Volume)), target))
	}
	if j.limit != nil {
		out = append(out, fmt.Sprintf("That cannot be done as things stand: %v.", j.limit))
	}
	return append(out, fmt.Sprintf("Verdict: %s (see below what it rests on).", j.verdict.Outlook))
}

func (j *job) pouring(b batch, f *form) (section, error) {
	s := section{Title: "Pour"}
	m := j.pour.Result
	s.add("wine, racked, at "+said(f.strength("", j.base.Strength)), f.volume("base_volume", j.base.Volume))
	s.add(fmt.Sprintf("%s, at %s", b.spirit, f.temperature(b.cellar)), f.volume("spirit_to_pour", j.asMeasured))
	s.add("makes", f.volume("volume", m.Volume))
	s.add("  of", f.strength("strength", m.Strength))
	s.add("  with sugar", f.concentration("extract", m.Extract))
	s.add("spirit as a share of the blend", f.plain("spirit_share", 100*j.pour.Share(), 0, "%"))
	return s, nil
}

func (j *job) spindleReads(b batch, f *form) (section, error) {
	s := section{Title: "On the hydrometer"}
	sugared, err := j.spindle.Reading(j.og, b.mustTemperature)
	if err != nil {
		return s, err
	}
	stop, err := j.spindle.Shows(j.fermented.Strength, j.fermented.Extract, b.cellar)
	if err != nil {
		return s, err
	}
	done, err := j.pour.Result.Shows(j.spindle, b.cellar)
	if err != nil {
		return s, err
	}
	cellar := f.temperature(b.cellar)
	s.add("with the sugar in, at "+f.temperature(b.mustTemperature), f.gravity("original_reading", sugared))
	s.add("stop here, at "+cellar, f.gravity("stop_reading", stop))
	s.add("  alcohol by then", f.strength("base_strength", j.fermented.Strength))
	s.add("  sugar left", f.concentration("base_extract", j.fermented.Extract))
	s.add("after the spirit, at "+cellar, f.gravity("blend_reading", done))
	s.say("Degas the sample before reading. Chill, rack and dose when the spindle nears the stop: it falls on while you work. Left alone this must would reach %s.", said(f.strength("", j.fermentedOut.Strength)))
	s.say("%s", blend.WarmBlend)
	return s, nil
}

func (j *job) weighing(b batch, f *form) (section, error) {
	s := section{Title: "Weigh, or spoon level"}
	for _, dose := range []struct {
		name, label string
		what        additions.Substance
		mass        units.Mass
	}{
		{"sugar", "sugar, into the must", additions.GranulatedSugar, j.sugar},
		{"potassium_metabisulfite", "potassium metabisulfite, before the spirit", additions.MetabisulfitePowder, j.salt},
		{"potassium_sorbate", "potassium sorbate, before the spirit", additions.SorbatePowder, j.sorbate},
	} {
		if dose.mass == 0 {
			continue
		}
		spoons, err := additions.Spoons(dose.what, dose.mass)
		if err != nil {
			return s, err
		}
		g := f.mass(dose.name, dose.mass)
		g.Method = spoons.String()
		s.add(dose.label, g)
	}
	if b.wood > 0 {
		s.add("oak chips", f.mass("oak", b.wood))
	}
	if j.salt+j.sorbate > 0 {
		s.say("A level spoon of powder is good to 10 to 20 %%: weigh sulfite and sorbate.")
	}
	if b.sorbate > 0 {
		for _, n := range additions.SorbateCautions(b.sulfite) {
			s.say("%s", n.Text)
		}
	}
	return s, nil
}

func (j *job) staysStill(b batch, f *form) (section, error) {
	s := section{Title: "Will it stay still? " + string(j.verdict.Outlook)}
	for _, r := range j.verdict.Barriers {
		s.Lines = append(s.Lines, fmt.Sprintf("  %-28s %-13s %s, needs %s %s", r.Name, r.Hold,
			units.Round(r.Value, 1), units.Round(r.Needed, 1), r.Unit))
	}
	s.say("Not looked at: %s.", strings.Join(j.verdict.NotChecked, "; "))
	return s, nil
}

func (j *job) handRule(b batch, f *form) (section, error) {
	s := section{Title: "The hand rule (volumes simply added) beside the balance"}
	s.add("spirit by the hand rule", f.volume("spirit_by_hand", units.Volume(j.square.Spirit.InexactFloat64())))
	s.add("spirit by the balance", f.volume("spirit", j.pour.Spirit))
	if b.planned > 0 {
		s.add("the amount planned, by the hand rule", f.plain("planned_strength_by_hand", j.hand.Strength.InexactFloat64(), 2, "% vol"))
		s.add("the amount planned, by the balance", f.plain("planned_strength", float64(j.planned.Strength), 2, "% vol"))
	}
	return s, nil
}

func (j *job) bottling(b batch, f *form) (section, error) {
	s := section{Title: "Bottles"}
	for _, n := range j.bottles {
		s.add("bottles of "+said(f.volume("", n.Size)), f.plain("bottles_"+n.Size.Decimal(units.Millilitre, 0).String()+"_ml", float64(n.Count), 0, ""))
	}
	if len(j.bottles) > 0 {
		s.add("what remains", f.volume("remainder", j.rest))
	}
	return s, nil
}

func (j *job) cautions(b batch, f *form) (section, error) {
	s := section{Title: "Cautions"}
	for _, x := range j.law.Exceeded {
		s.say("Above the %s limit: %s %s %s, allowed %s (%s).", j.law.Jurisdiction, x.Parameter, units.Round(x.Value, 0), x.Unit, units.Round(x.Limit, 0), x.Source)
	}
	for _, x := range j.law.Declare {
		s.say("Label (%s): contains sulfites, at %s %s and more (%s).", j.law.Jurisdiction, units.Round(x.Limit, 0), x.Unit, x.Source)
	}
	general, err := additions.Cautions("alcohol", "sulfite", "pressure", "CO2", "flame", "distilling")
	if err != nil {
		return s, err
	}
	for _, n := range general {
		if n.Value == "" { // the figures are for the reader of package additions
			s.say("%s: %s.", n.Hazard, n.Fact)
		}
	}
	flash, err := additions.FlashPoint(b.strength)
	if err == nil {
		s.say("flame: the vapour of the spirit takes fire from %s up.", f.temperature(flash))
	}
	if j.law.Law != "" {
		s.say("%s", j.law.Law)
	}
	return s, nil
}
