package main

import (
	"fmt"
	"strings"

	"example.org/mutage/additions"
	"example.org/mutage/additions/acid"
	"example.org/mutage/additions/law"
	"example.org/mutage/internal/figure"
	"example.org/mutage/internal/say"
	"example.org/mutage/units"
)

func (d *dosing) doseSorbate() error {
	level, m, between := d.sorbate.level, d.sorbate.mass, ""
	var err error
	var lines []string
	switch {
	case d.sorbate.wanted():
		if m, err = additions.Sorbate(level, d.volume); err != nil {
			return err
		}
		lines = d.spoons("potassium sorbate", additions.SorbatePowder, m)
		d.weigh = append(d.weigh, d.form.System.Mass(m)+" of potassium sorbate")
	case d.sorbate.count > 0:
		return fmt.Errorf("%w: -sorbate %q: tablets of sorbate are not known: weigh them", errUsage, d.sorbate.text)
	case d.sorbate.volume > 0:
		if m, between, err = d.ofSpoon(additions.SorbatePowder, law.SorbicAcid, d.sorbate.volume); err != nil {
			return err
		}
	}
	if !d.sorbate.wanted() {
		if level, err = additions.SorbicAcid(m, d.volume); err != nil {
			return err
		}
		if u := d.spoon[law.SorbicAcid]; u > 0 {
			if d.unsure[law.SorbicAcid], err = additions.SorbicAcid(u, d.volume); err != nil {
				return err
			}
		}
		d.comes = append(d.comes, fmt.Sprintf("%s of potassium sorbate%s adds %s of sorbic acid", d.sorbate.text, between, say.Concentration(level)))
	}
	all, err := additions.SorbateFigures(level, d.volume)
	if err != nil {
		return err
	}
	figures := []units.Figure{as(one(all, "sorbate_dose"), "potassium_sorbate", "potassium sorbate")}
	figures[0].Note = "adds " + say.Concentration(level) + " of sorbic acid"
	figures = append(figures, figure.Method{Method: "what is in it and what is added", Source: "input"}.Of("sorbic_acid", "sorbic acid then", float64(level+d.sorbicIn), 4, "g/L"))
	if !d.is["sorbic-in"] {
		lines = append(lines, "What is in it already counts towards the limits: -sorbic-in \"100 mg/L\".")
	}
	for _, n := range additions.SorbateCautions(d.levels[law.TotalSO2]) {
		lines = append(lines, n.Text)
	}
	d.levels[law.SorbicAcid] = level + d.sorbicIn
	d.sheet.Add("sorbate", "Sorbate", figures, append(lines, d.cautions(law.What{Sorbate: true, Jurisdiction: d.jurisdiction})...)...)
	return d.slip(additions.AddedSorbicAcid, level)
}

// raiseAcid is the weight of one acid, of each usual one, or of a blend; or what a
// weight does.
func (d *dosing) raiseAcid() error {
	if !d.raise.wanted() {
		return d.tellAcid()
	}
	names := []string{"tartaric", "malic", "citric"}
	if d.is["acid"] {
		names = []string{d.acidName}
	}
	var figures []units.Figure
	for i, name := range names {
		b, err := acid.ParseBlend(name)
		if err != nil {
			return err
		}
		m, err := b.Raise(d.raise.level, d.volume)
		if err != nil {
			return err
		}
		figures = append(figures, figure.Method{Method: "rise of TA times volume times the acid's equivalent over tartaric acid's", Source: b[0].Acid.Source}.Of(acidKey(b), b.String(), float64(m), 2, "g"))
		if i == 0 {
			text := d.form.System.Mass(m) + " of " + b.String()
			if len(names) > 1 {
				text += " (or another acid below)"
			}
			d.weigh = append(d.weigh, text)
		}
	}
	lines := []string{"As titratable acidity in tartaric acid. Part of tartaric acid may fall as crystals. Add half, taste, measure, add the rest."}
	if len(names) > 1 {
		lines = append(lines, "One of these acids, not all; -acid says which, or a blend.")
	}
	d.sheet.Add("acid", "Acid", figures, append(lines, d.cautions(law.What{Acid: true, Jurisdiction: d.jurisdiction})...)...)
	d.levels[law.AcidAdded] = d.raise.level
	return d.slip(additions.AddedAcid, d.raise.level)
}

func acidKey(b acid.Blend) string {
	if len(b) > 1 {
		return "acid_blend"
	}
	return strings.ReplaceAll(b.String(), " ", "_")
}

func (d *dosing) tellAcid() error {
	if !d.is["acid"] {
		return fmt.Errorf("%w: -raise-acid %q of which? -acid tartaric, malic, citric or a blend", errUsage, d.raise.text)
	}
	if d.raise.mass == 0 {
		return fmt.Errorf("%w: -raise-acid %q: acid has no published weight by the spoon: weigh it", errUsage, d.raise.text)
	}
	b, err := acid.ParseBlend(d.acidName)
	if err != nil {
		return err
	}
	low, high, err := b.Raised(d.raise.mass, d.volume)
	if err != nil {
		return err
	}
	figures, said := d.between("ta", "rise of the acidity", low, high)
	figures = append(figures, figure.Stated.Of(acidKey(b), b.String(), float64(d.raise.mass), 2, "g"))
	d.comes = append(d.comes, fmt.Sprintf("%s of %v raises the titratable acidity by %s", d.raise.text, b, said))
	d.sheet.Add("acid", "Acid", figures, d.cautions(law.What{Acid: true, Jurisdiction: d.jurisdiction})...)
	d.levels[law.AcidAdded] = high
	return d.slip(additions.AddedAcid, high)
}

// between are two ends of a level, and how a sentence says them.
func (d *dosing) between(key, name string, low, high units.Concentration) ([]units.Figure, string) {
	m := figure.Method{Method: "equivalents over the volume; what may fall as crystals taken off or not", Source: "Handbook of Enology vol. 2, 3rd ed. (2021)"}
	l, h := m.Of(key+"_low", name+", at least", float64(low), 2, "g/L"), m.Of(key+"_high", name+", at most", float64(high), 2, "g/L")
	if said(&d.form, l) == said(&d.form, h) {
		return []units.Figure{as(h, key, name)}, said(&d.form, h)
	}
	return []units.Figure{l, h}, said(&d.form, l) + " to " + said(&d.form, h)
}

func (d *dosing) lowerAcid() error {
	names := []string{acid.PotassiumBicarbonate.Name, acid.CalciumCarbonate.Name}
	if d.is["carbonate"] {
		names = []string{d.carbonate}
	} else if !d.lower.wanted() {
		return fmt.Errorf("%w: -lower-acid %q of which? -carbonate \"potassium bicarbonate\", \"potassium carbonate\" or \"calcium carbonate\"", errUsage, d.lower.text)
	}
	var figures []units.Figure
	var level units.Concentration
	for i, name := range names {
		c, err := acid.ParseCarbonate(name)
		if err != nil {
			return misread("carbonate", err)
		}
		key := strings.ReplaceAll(c.Name, " ", "_")
		if !d.lower.wanted() {
			return d.tellCarbonate(c, key)
		}
		all, err := acid.LowerTAFigures(d.lower.level, d.volume, c)
		if err != nil {
			return err
		}
		g := as(one(all, "carbonate_dose"), key, c.Name)
		g.Note = "falls afterwards: " + c.Crystals
		figures = append(figures, g)
		if i == 0 {
			m, err := acid.LowerTA(d.lower.level, d.volume, c)
			if err != nil {
				return err
			}
			if level, err = m.Per(d.volume); err != nil {
				return err
			}
			text := d.form.System.Mass(m) + " of " + c.Name
			if len(names) > 1 {
				text += " (or another below)"
			}
			d.weigh = append(d.weigh, text)
		}
	}
	d.levels[law.AcidRemoved] = d.lower.level
	d.sheet.Add("carbonate", "Less acid", figures, "One of these, in portions; it foams. Taste, wait for the crystals, measure again: the potassium salts may take off as much again in the cold.")
	return d.slip(additions.AddedCarbonate, level)
}

func (d *dosing) tellCarbonate(c acid.Carbonate, key string) error {
	if d.lower.mass == 0 {
		return fmt.Errorf("%w: -lower-acid %q: carbonates have no published weight by the spoon here: weigh it", errUsage, d.lower.text)
	}
	low, high, err := acid.LoweredTA(d.lower.mass, d.volume, c)
	if err != nil {
		return err
	}
	level, err := d.lower.mass.Per(d.volume)
	if err != nil {
		return err
	}
	figures, said := d.between("ta", "fall of the acidity", low, high)
	figures = append(figures, figure.Stated.Of(key, c.Name, float64(d.lower.mass), 2, "g"))
	d.comes = append(d.comes, fmt.Sprintf("%s of %s takes %s off the titratable acidity", d.lower.text, c.Name, said))
	d.levels[law.AcidRemoved] = high
	d.sheet.Add("carbonate", "Less acid", figures, "The higher figure when its crystals ("+c.Crystals+") have fallen.")
	return d.slip(additions.AddedCarbonate, level)
}
