package main

import (
	"errors"
	"fmt"
	"strings"

	"example.org/mutage/additions"
	"example.org/mutage/blend"

	"example.org/mutage/additions/law"
	"example.org/mutage/additions/stability"
	"example.org/mutage/examples/worksheet/internal/page"
	"example.org/mutage/units"
)

// page sets a worked job in the order it is used: the answer, the spindle, the
// spoons, the verdict, the hand rule, the bottles, the cautions.
func (j *job) page(b batch, f *page.Form) (page.Page, error) {
	p := page.Page{Title: string(b.name), Answer: j.answer(b, f)}
	for _, make := range []func(batch, *page.Form) (page.Section, error){j.pouring, j.spindleReads, j.weighing, j.staysStill, j.howSure, j.handRule, j.bottling, j.warned} {
		s, err := make(b, f)
		if err != nil {
			return page.Page{}, err
		}
		if len(s.Figures)+len(s.Lines) > 0 {
			p.Sections = append(p.Sections, s)
		}
	}
	return p, nil
}

func (j *job) answer(b batch, f *page.Form) []string {
	spirit := page.Said(f.Volume("", j.asMeasured)) + " of " + string(b.spirit)
	target := page.Said(f.Strength("", b.target))
	var out []string
	planned, wanted := f.Strength("", j.planned.Strength), f.Strength("", b.target)
	switch {
	case b.planned > 0 && !planned.Value.Equal(wanted.Value):
		out = append(out, fmt.Sprintf("%s of %s, as planned, makes %s, not %s: it takes %s.",
			page.Said(f.Volume("", b.planned)), b.spirit, page.Said(planned), target, spirit))
	default:
		out = append(out, fmt.Sprintf("Pour %s on %s of wine: it makes %s.", spirit, page.Said(f.Volume("", j.base.Volume)), target))
	}
	if j.limit != nil {
		out = append(out, fmt.Sprintf("That cannot be done as things stand: %v.", j.limit))
	}
	return append(out, fmt.Sprintf("Sweet at that strength it %s (what that rests on stands below).", j.verdict.Outlook))
}

func (j *job) pouring(b batch, f *page.Form) (page.Section, error) {
	s := page.Section{Title: "Pour"}
	s.Add("wine, racked, at "+page.Said(f.Strength("", j.base.Strength)), f.VolumeWithin("base_volume", j.within.BaseVolume))
	s.Add(fmt.Sprintf("%s, at %s", b.spirit, f.Temperature(b.cellar)), f.Volume("spirit_to_pour", j.asMeasured))
	s.Add("makes", f.VolumeWithin("volume", j.within.BlendVolume))
	s.Add("  of", f.Within("strength", j.within.BlendStrength, "% vol"))
	s.Add("  with extract", f.Within("extract", j.within.BlendExtract, "g/L"))
	s.Add("  of which sugar, about", f.Within("sugar_left", j.within.BlendSugar, "g/L"))
	s.Add("spirit as a share of the blend", f.Percent("spirit_share", j.pour.Share(), 0))
	return s, nil
}

func (j *job) spindleReads(b batch, f *page.Form) (page.Section, error) {
	s := page.Section{Title: "On the hydrometer"}
	sugared, err := j.spindle.Reading(j.og, b.mustTemperature)
	cellar := f.Temperature(b.cellar)
	reads := func(label, name string, strength units.Strength, extract units.Concentration) {
		g, fault := j.spindle.Shows(strength, extract, b.cellar)
		s.Add(label, f.Gravity(name, float64(g)))
		err = errors.Join(err, fault)
	}
	s.Add("with the sugar in, at "+f.Temperature(b.mustTemperature), f.Gravity("original_reading", float64(sugared)))
	reads("stop here, at "+cellar, "stop_reading", j.fermented.Strength, j.fermented.Extract)
	s.Add("  alcohol by then", f.Within("base_strength", j.within.BaseStrength, "% vol"))
	s.Add("  sugar left", f.Within("base_extract", j.within.BaseExtract, "g/L"))
	for i, w := range j.window {
		reads([]string{"  stop at the soonest", "  and at the latest"}[i], []string{"stop_from_reading", "stop_to_reading"}[i], w.Strength, w.Extract)
	}
	reads("after the spirit, at "+cellar, "blend_reading", j.pour.Result.Strength, j.pour.Result.Extract)
	s.Say("Degas the sample. Chill, rack and dose as the spindle nears the stop: left alone it falls on to %s. %s", page.Said(f.Strength("", j.fermentedOut.Strength)), blend.WarmBlend)
	return s, err
}

func (j *job) weighing(b batch, f *page.Form) (page.Section, error) {
	s := page.Section{Title: "Weigh, or spoon level"}
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
		if _, err := spoon(&s, f, dose.label, dose.name, dose.what, dose.mass); err != nil {
			return s, err
		}
	}
	if b.wood > 0 {
		s.Add("oak chips", f.Mass("oak", b.wood))
	}
	if j.salt+j.sorbate > 0 {
		s.Say("A level spoon of powder is good to 10 to 20 %%: weigh sulfite and sorbate.")
	}
	if b.sorbate > 0 {
		for _, n := range additions.SorbateCautions(b.sulfite) {
			s.Say("%s", n.Text)
			if b.sulfite > 0 && !f.Details() {
				break
			}
		}
	}
	return s, nil
}

// spoon puts a weight down, with the spoons that hold it.
func spoon(s *page.Section, f *page.Form, label, name string, what additions.Substance, m units.Mass) (additions.Spooned, error) {
	spoons, err := additions.Spoons(what, m)
	if err == nil {
		s.Add(label, f.Mass(name, m), spoons.String())
	}
	return spoons, err
}

func (j *job) staysStill(b batch, f *page.Form) (page.Section, error) {
	s := page.Section{Title: "Will it stay still? It " + j.verdict.Outlook.String()}
	s.Add("Delle units (75 to 85 needed)", f.Plain("delle_units", j.verdict.DelleUnits, 0, ""))
	for _, r := range j.verdict.Barriers {
		if f.Details() {
			s.Say("%s: %s; %s (%s).", r.Name, r.Hold, r.Because, r.Source)
		} else if r.Hold == stability.Holds || r.Hold == stability.Weak {
			s.Say("%s %s: %s, needs %s %s.", r.Name, r.Hold, units.Round(r.Value, 1), units.Round(r.Needed, 1), r.Unit)
		}
	}
	if j.verdict.Outlook != stability.Still {
		s.Say("%s", stability.BurstWarning)
	}
	s.Say("Not looked at: %s.", strings.Join(j.verdict.NotLookedAt, "; "))
	return s, nil
}

func (j *job) handRule(b batch, f *page.Form) (page.Section, error) {
	s := page.Section{Title: "The hand rule (volumes simply added) beside the balance at 20 C"}
	s.Add("spirit by the hand rule", f.Volume("spirit_by_hand", units.Volume(j.square.Spirit.InexactFloat64())))
	s.Add("spirit by the balance", f.Volume("spirit", j.pour.Spirit))
	if b.planned > 0 {
		s.Add("the amount planned, by the hand rule", f.Plain("planned_strength_by_hand", j.hand.Strength.InexactFloat64(), 2, "% vol"))
		s.Add("the amount planned, by the balance", f.Plain("planned_strength", float64(j.planned.Strength), 2, "% vol"))
	}
	if f.Show != "" {
		for _, line := range j.square.Working {
			s.Lines = append(s.Lines, "    "+line)
		}
	}
	return s, nil
}

func (j *job) bottling(b batch, f *page.Form) (page.Section, error) {
	s := page.Section{Title: "Bottles"}
	for _, n := range j.bottles {
		s.Add("bottles of "+page.Said(f.Volume("", n.Size)), f.Plain("bottles_"+n.Size.Decimal(units.Millilitre, 0).String()+"_ml", float64(n.Count), 0, ""))
	}
	if len(j.bottles) > 0 {
		s.Add("what remains", f.Volume("remainder", j.rest))
	}
	return s, nil
}

func (j *job) warned(_ batch, f *page.Form) (page.Section, error) {
	s := page.Section{Title: "Cautions"}
	for _, x := range j.law.Having(law.Exceeded, law.MayExceed, law.Due, law.MayBeDue) {
		s.Say("%s", x)
	}
	for _, x := range j.cautions {
		if f.Details() || x.Lead {
			s.Say("%s", x)
		}
	}
	if j.law.Advice != "" && f.Details() {
		s.Say("%s", j.law.Advice)
	}
	return s, nil
}
