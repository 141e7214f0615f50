package main

import (
	"flag"
	"fmt"
	"io"
	"strings"

	"example.org/mutage/additions"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/fields"

	"example.org/mutage/additions/acid"
	"example.org/mutage/additions/law"
	"example.org/mutage/additions/sugar"
	"example.org/mutage/examples/worksheet/internal/page"
	"example.org/mutage/units"
)

// dose is what to weigh and spoon for the levels wanted.
func dose(set *flag.FlagSet, args []string, out io.Writer) error {
	var f page.Form
	var v units.Volume
	var sulfite, sorbate, raise, lower units.Concentration
	var pH fields.Number
	var from, to gravity.SG
	f.Flags(set)
	set.Var(&v, "volume", "of the must or wine")
	set.Var(&sulfite, "sulfite", `SO2 to add, such as "50 mg/L"`)
	set.Var(&sorbate, "sorbate", `sorbic acid to add, such as "200 mg/L"`)
	set.Var(&pH, "ph", "of the wine: what part of the SO2 then works")
	set.Var(&raise, "raise-acid", `titratable acidity to add, such as "1 g/L"`)
	set.Var(&lower, "lower-acid", `titratable acidity to take away`)
	set.Var(&from, "from", "gravity of the must (with -to)")
	set.Var(&to, "to", "gravity wanted")
	rest, err := parseForm(&f, set, args)
	if err != nil {
		return err
	}
	if len(rest) > 0 || v == 0 {
		return fmt.Errorf("%w: dose -volume \"3 L\" and what is wanted (-h lists it)", errUsage)
	}
	s := page.Section{Title: "Weigh, or spoon level"}
	var weigh []string
	spooned := func(label, name string, what additions.Substance, m units.Mass, err error) error {
		if err != nil {
			return err
		}
		spoons, err := spoon(&s, &f, label, name, what, m)
		if err != nil {
			return err
		}
		weigh = append(weigh, page.Said(f.Mass("", m))+" of "+label)
		if spoons.UseScale && spoons.Printed > 0 {
			s.Say("%s: by the spoon it may be %s to %s. Use a scale.", label, page.Said(f.Mass("", spoons.Low)), page.Said(f.Mass("", spoons.High)))
		}
		return nil
	}
	if sulfite > 0 {
		m, err := additions.Metabisulfite(sulfite, v)
		if err := spooned("potassium metabisulfite", "potassium_metabisulfite", additions.MetabisulfitePowder, m, err); err != nil {
			return err
		}
		if pH > 0 {
			works, err := additions.MolecularSO2(sulfite, float64(pH), additions.UsualPK)
			if err != nil {
				return err
			}
			s.Add("molecular SO2, if all of it stays free", f.Plain("molecular_so2", works.In(units.MilligramPerLitre), 2, "mg/L"))
		}
		for _, c := range law.At(law.Cautions(law.What{Sulfite: true}), law.StepDose, law.StepGive) {
			if c.Lead || f.Details() {
				s.Say("%s", c)
			}
		}
	}
	if sorbate > 0 {
		m, err := additions.Sorbate(sorbate, v)
		if err := spooned("potassium sorbate", "potassium_sorbate", additions.SorbatePowder, m, err); err != nil {
			return err
		}
		for _, n := range additions.SorbateCautions(sulfite) {
			s.Say("%s", n.Text)
		}
	}
	if to > 0 {
		a, err := sugar.RaiseGravity(from, to, v)
		if err := spooned("sugar", "sugar", additions.GranulatedSugar, a.Sugar, err); err != nil {
			return err
		}
		s.Add("  the must then fills", f.Volume("volume_after", a.Volume))
	}
	type way struct {
		name string
		mass units.Mass
		err  error
	}
	oneOf := func(note string, ways ...way) error {
		for i, w := range ways {
			if w.err != nil {
				return w.err
			}
			s.Add(w.name, f.Mass(w.name, w.mass))
			if i == 0 {
				weigh = append(weigh, page.Said(f.Mass("", w.mass))+" of "+w.name+" (or another below)")
			}
		}
		s.Say("%s", note)
		return nil
	}
	ofAcid := func(a acid.Acid) way { m, err := acid.RaiseTA(raise, v, a); return way{a.Name, m, err} }
	base := func(c acid.Carbonate) way { m, err := acid.LowerTA(lower, v, c); return way{c.Name, m, err} }
	if raise > 0 {
		err = oneOf("One of these acids, not all.", ofAcid(acid.Tartaric), ofAcid(acid.Malic), ofAcid(acid.Citric))
	}
	if lower > 0 && err == nil {
		err = oneOf("One of these, in portions; taste, wait for the crystals, measure again.", base(acid.PotassiumBicarbonate), base(acid.CalciumCarbonate))
	}
	if err != nil {
		return err
	}
	if len(s.Figures) == 0 {
		return fmt.Errorf("%w: dose: nothing is wanted; -h lists what can be", errUsage)
	}
	return f.Print(page.Page{Title: "Dose", Answer: []string{"For " + page.Said(f.Volume("", v)) + " weigh " + strings.Join(weigh, " and ") + "."}, Sections: []page.Section{s}}, out)
}

// spoon puts a weight down, with the spoons that hold it.
func spoon(s *page.Section, f *page.Form, label, name string, what additions.Substance, m units.Mass) (additions.Spooned, error) {
	spoons, err := additions.Spoons(what, m)
	if err == nil {
		s.Add(label, f.Mass(name, m), spoons.String())
	}
	return spoons, err
}
