package main

import (
	"fmt"
	"strings"

	"example.org/mutage/additions"
	"example.org/mutage/additions/law"
	"example.org/mutage/internal/figure"
	"example.org/mutage/internal/say"
	"example.org/mutage/units"
)

// theSalt is the sulfite that -salt names.
func (d *dosing) theSalt() (additions.Sulfite, error) {
	all := []additions.Sulfite{additions.PotassiumMetabisulfite, additions.SodiumMetabisulfite, additions.PotassiumBisulfite}
	if !d.is["salt"] {
		return all[0], nil
	}
	var known []string
	for _, s := range all {
		if strings.EqualFold(s.Name, strings.TrimSpace(d.salt)) {
			return s, nil
		}
		known = append(known, s.Name)
	}
	return additions.Sulfite{}, misread("salt", &units.ParseError{Text: d.salt, Quantity: "salt", Expected: known})
}

func (d *dosing) doseSulfite() error {
	salt, err := d.theSalt()
	if err != nil {
		return err
	}
	if d.sulfite.wanted() {
		return d.weighSulfite(salt, d.sulfite.level)
	}
	return d.tellSulfite(salt)
}

// doseFree is the dose for a level of free or molecular SO2.
func (d *dosing) doseFree() error {
	salt, err := d.theSalt()
	if err != nil {
		return err
	}
	want, pH := d.freeTo, float64(d.pH)
	if d.is["molecular"] {
		if want, err = additions.FreeSO2For(d.molecular, pH, additions.UsualPK); err != nil {
			return err
		}
	}
	low, high, err := additions.SO2ToAdd(want, d.free)
	if err != nil {
		return err
	}
	if err := d.weighSulfite(salt, low); err != nil {
		return err
	}
	step := &d.sheet.Steps[len(d.sheet.Steps)-1]
	binding := figure.Method{Method: "free SO2 wanted less that measured, over the part of an addition that stays free", Source: "the published range for a fresh addition"}
	step.Figures = append(step.Figures, binding.Of("free_so2_wanted", "free SO2 wanted", float64(want), 4, "g/L"), binding.Of("so2_to_add_high", "SO2 to add where the wine binds most", float64(high), 4, "g/L"))
	step.Lines = append(step.Lines, "A sweet or just stopped wine binds the most. Take the lower dose, wait a day, measure again, and add the rest.")
	if !d.is["free"] {
		step.Lines = append(step.Lines, "No free SO2 is stated (-free): none is counted.")
	}
	return nil
}

// weighSulfite is what to weigh, or to measure, for so much SO2.
func (d *dosing) weighSulfite(salt additions.Sulfite, level units.Concentration) error {
	if d.is["solution"] {
		return d.pourSulfite(level)
	}
	all, err := salt.DoseFigures(level, d.volume, float64(d.purity))
	if err != nil {
		return err
	}
	m, err := salt.Dose(level, d.volume, float64(d.purity))
	if err != nil {
		return err
	}
	key := strings.ReplaceAll(salt.Name, " ", "_")
	figures := []units.Figure{as(one(all, "sulfite_dose"), key, salt.Name)}
	figures[0].Note = "adds " + say.Concentration(level) + " of SO2"
	var lines []string
	weigh := d.form.System.Mass(m) + " of " + salt.Name
	switch {
	case d.is["tablet"]:
		n, err := (additions.Packet{Name: "tablet", Mass: d.tablet, Active: 1}).For(m) // of the same salt
		if err != nil {
			return err
		}
		figures = append(figures, figure.Method{Method: "salt over that of one tablet", Source: "its label"}.Of("tablets", "tablets", n, 2, ""))
		weigh += " (" + units.Round(n, 1).String() + " tablets)"
		lines = append(lines, "Crush tablets and dissolve them in a little of the wine.")
	case salt.Name == additions.PotassiumMetabisulfite.Name:
		lines = append(lines, d.spoons(salt.Name, additions.MetabisulfitePowder, m)...)
	}
	d.weigh = append(d.weigh, weigh)
	return d.sulfited(figures, lines, level)
}

// pourSulfite is the volume of a solution.
func (d *dosing) pourSulfite(level units.Concentration) error {
	all, err := additions.SulfiteSolutionFigures(level, d.volume, d.solution)
	if err != nil {
		return err
	}
	pour := as(one(all, "sulfite_solution_dose"), "sulfite_solution", "sulfite solution to measure")
	d.pour = append(d.pour, said(&d.form, pour)+" of the sulfite solution")
	return d.sulfited([]units.Figure{pour}, nil, level)
}

// tellSulfite is what sulfite that went in comes to.
func (d *dosing) tellSulfite(salt additions.Sulfite) error {
	m, between, what := d.sulfite.mass, "", d.sulfite.text+" of "+salt.Name
	level, err := units.Concentration(0), error(nil)
	switch {
	case d.sulfite.volume > 0 && d.is["solution"]:
		what = d.sulfite.text + " of the sulfite solution"
		level, err = additions.SolutionAdds(d.sulfite.volume, d.volume, d.solution)
	case d.is["solution"]:
		return fmt.Errorf("%w: -solution goes with a level to reach (-sulfite \"50 mg/L\") or with what was measured of it (-sulfite \"5 mL\")", errUsage)
	case d.sulfite.volume > 0 && salt.Name != additions.PotassiumMetabisulfite.Name:
		return fmt.Errorf("%w: -salt: a spoon of %s has no published weight: weigh it", errUsage, salt.Name)
	case d.sulfite.volume > 0:
		m, between, err = d.ofSpoon(additions.MetabisulfitePowder, law.TotalSO2, d.sulfite.volume)
	case d.sulfite.count > 0 && !d.is["tablet"]:
		return fmt.Errorf("%w: how much salt is in one? -tablet \"0.44 g\", by its label", errUsage)
	case d.sulfite.count > 0:
		m, err = (additions.Packet{Name: "tablet", Mass: d.tablet, Active: 1}).Holds(d.sulfite.count)
	}
	if err != nil {
		return err
	}
	if d.is["tablet"] && d.sulfite.count == 0 {
		return fmt.Errorf("%w: -tablet goes with tablets (-sulfite \"2 tablets\") or a level to reach", errUsage)
	}
	if level == 0 {
		if level, err = salt.Adds(m, d.volume, float64(d.purity)); err != nil {
			return err
		}
	}
	if u := d.spoon[law.TotalSO2]; u > 0 {
		if d.unsure[law.TotalSO2], err = salt.Adds(u, d.volume, float64(d.purity)); err != nil {
			return err
		}
	}
	added := figure.Method{Method: "SO2 in the salt or the solution, over the volume", Source: salt.Source}.Of("so2_added", "SO2 that it adds", float64(level), 4, "g/L")
	figures := []units.Figure{added}
	if m > 0 {
		figures = append(figures, figure.Stated.Of(strings.ReplaceAll(salt.Name, " ", "_"), salt.Name, float64(m), 2, "g"))
	}
	d.comes = append(d.comes, fmt.Sprintf("%s%s adds %s of SO2", what, between, say.Concentration(level)))
	return d.sulfited(figures, nil, level)
}

// sulfited is what is the same for every dose of sulfite.
func (d *dosing) sulfited(figures []units.Figure, lines []string, level units.Concentration) error {
	if d.is["ph"] {
		free, _, err := additions.SO2{Added: level}.FreeRange()
		if err != nil {
			return err
		}
		for _, x := range []struct {
			key, name string
			free      units.Concentration
		}{{"molecular_so2_low", "molecular SO2, if it binds as in a sweet wine", free}, {"molecular_so2", "molecular SO2, if all of it stays free", level}} {
			all, err := additions.MolecularSO2Figures(x.free, float64(d.pH), additions.UsualPK)
			if err != nil {
				return err
			}
			figures = append(figures, as(one(all, "molecular_so2"), x.key, x.name))
		}
	}
	d.levels[law.TotalSO2] = level + d.soIn
	if d.is["so2-in"] {
		figures = append(figures, figure.Method{Method: "what is in it and what is added", Source: "input"}.Of("total_so2", "total SO2 then", float64(level+d.soIn), 4, "g/L"))
	} else {
		lines = append(lines, "What is in it already counts towards the limits: -so2-in \"60 mg/L\".")
	}
	d.sheet.Add("sulfite", "Sulfite", figures, append(lines, d.cautions(law.What{Sulfite: true, Jurisdiction: d.jurisdiction})...)...)
	return d.slip(additions.AddedSO2, level)
}
