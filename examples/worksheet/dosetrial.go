package main

import (
	"errors"
	"fmt"
	"strings"

	"example.org/mutage/abv"
	"example.org/mutage/additions"
	"example.org/mutage/additions/acid"
	"example.org/mutage/additions/law"
	"example.org/mutage/additions/sugar"
	"example.org/mutage/blend"
	"example.org/mutage/internal/figure"
	"example.org/mutage/internal/say"
	"example.org/mutage/units"
)

var scaling = figure.Method{Method: "the trial's share times the volume", Source: "input"}

// scaleTrial takes what tasted right in a glass to the whole volume.
func (d *dosing) scaleTrial() error {
	what, in, ok := cutLast(d.tasted, " in ")
	if !ok {
		return d.trialExpected(d.tasted)
	}
	sample, err := units.ParseVolume(in)
	if err != nil {
		return misread("tasted", err)
	}
	amount, of := leading(what)
	if m, err := units.ParseMass(amount); err == nil {
		level, err := m.Per(sample)
		if err != nil {
			return misread("tasted", err)
		}
		return d.trialOf(of, level.Mass(d.volume), level)
	}
	v, err := units.ParseVolume(amount)
	if err != nil {
		return d.trialExpected(d.tasted)
	}
	return d.trialLiquid(what, v, sample)
}

func (d *dosing) trialExpected(text string) error {
	return misread("tasted", &units.ParseError{Text: text, Quantity: "trial", Expected: []string{"0.2 g tartaric acid in 100 mL", "2 g sugar in 100 mL", "5 mL at 40 % vol in 100 mL"}})
}

func cutLast(text, word string) (before, after string, found bool) {
	i := strings.LastIndex(text, word)
	if i < 0 {
		return text, "", false
	}
	return text[:i], text[i+len(word):], true
}

// trialOf is a trial of something weighed: an acid, a sweetener, a carbonate,
// sulfite or sorbate.
func (d *dosing) trialOf(of string, m units.Mass, level units.Concentration) error {
	figures := []units.Figure{scaling.Of("trial_mass", of, float64(m), 2, "g")}
	d.weigh = append(d.weigh, d.form.System.Mass(m)+" of "+of)
	unchanged := "Strength and sugar stay as they are, but for the little volume that it takes (-wine shows it)."
	if d.is["wine"] {
		unchanged = "There is no more sugar: it counts towards the extract."
	}
	if s, err := sugar.ParseSweetener(of); err == nil && of != "" {
		return d.trialSugar(s, m, figures)
	}
	b, err := acid.ParseBlend(of)
	if out := (*units.RangeError)(nil); errors.As(err, &out) { // acids, but not such parts
		return misread("tasted", err)
	}
	if err == nil {
		low, high, err := b.Raised(m, d.volume)
		if err != nil {
			return err
		}
		d.levels[law.AcidAdded] += high
		more, said := d.between("ta", "rise of the acidity", low, high)
		then, err := d.dissolved(of, m)
		if err != nil {
			return err
		}
		d.sheet.Add("trial", "From the trial", append(append(figures, more...), then...), "The titratable acidity rises by "+said+". "+unchanged)
		return d.slip(additions.AddedAcid, level)
	}
	if c, err := acid.ParseCarbonate(of); err == nil {
		return d.trialCarbonate(c, m, level, figures, unchanged)
	}
	then, err := d.dissolved(of, m)
	if err != nil {
		return err
	}
	figures = append(figures, then...)
	switch strings.ToLower(of) {
	case "potassium metabisulfite", "metabisulfite", "sulfite":
		so2, err := additions.PotassiumMetabisulfite.Adds(m, d.volume, 1)
		if err != nil {
			return err
		}
		d.levels[law.TotalSO2] += so2
		d.sheet.Add("trial", "From the trial", figures, append([]string{"It adds " + say.Concentration(so2) + " of SO2. " + unchanged}, d.cautions(law.What{Sulfite: true})...)...)
		return d.slip(additions.AddedSO2, so2)
	case "potassium sorbate", "sorbate":
		sorbic, err := additions.SorbicAcid(m, d.volume)
		if err != nil {
			return err
		}
		d.levels[law.SorbicAcid] += sorbic
		d.sheet.Add("trial", "From the trial", figures, append([]string{"It adds " + say.Concentration(sorbic) + " of sorbic acid. " + unchanged}, d.cautions(law.What{Sorbate: true})...)...)
		return d.slip(additions.AddedSorbicAcid, sorbic)
	case "":
		return d.trialExpected(d.tasted)
	}
	d.sheet.Add("trial", "From the trial", figures, "What "+of+" does to acid, sugar and strength is not known here.")
	return nil
}

func (d *dosing) trialCarbonate(c acid.Carbonate, m units.Mass, level units.Concentration, figures []units.Figure, unchanged string) error {
	if d.is["wine"] {
		return fmt.Errorf("%w: -wine does nothing beside a trial of %s: crystals fall and gas leaves", errUsage, c.Name)
	}
	low, high, err := acid.LoweredTA(m, d.volume, c)
	if err != nil {
		return err
	}
	more, said := d.between("ta", "fall of the acidity", low, high)
	d.levels[law.AcidRemoved] += high
	d.sheet.Add("trial", "From the trial", append(figures, more...), "The titratable acidity falls by "+said+", the more when its crystals have fallen. "+unchanged)
	return d.slip(additions.AddedCarbonate, level)
}

// dissolved is the wine with something in it that yeast does not ferment: it counts
// towards the extract.
func (d *dosing) dissolved(name string, m units.Mass) ([]units.Figure, error) {
	if !d.is["wine"] {
		return nil, nil
	}
	w, err := abv.Compose(d.wine.Strength, d.wine.Extract)
	if err != nil {
		return nil, err
	}
	a, err := sugar.Sweeten(w, d.volume, sugar.Sweetener{Name: name, Extract: 1, Source: "as stated"}, m)
	return d.after(a.Figures()), err
}

func (d *dosing) trialSugar(s sugar.Sweetener, m units.Mass, figures []units.Figure) error {
	if !d.is["wine"] {
		d.sheet.Add("trial", "From the trial", figures, "What it does to sugar and strength: state the wine, -wine \"at 13 % vol with 20 g/L\".")
		return nil
	}
	w, err := abv.Compose(d.wine.Strength, d.wine.Extract)
	if err != nil {
		return err
	}
	a, err := sugar.Sweeten(w, d.volume, s, m)
	if err != nil {
		return err
	}
	d.sheet.Add("trial", "From the trial", append(figures, d.after(a.Figures())...), "Its acid is thinned as the volume grows. Sweetened wine ferments again unless something holds it: worksheet plan judges that.")
	return nil
}

// after are strength, extract and volume of what the trial makes.
func (d *dosing) after(all []units.Figure) []units.Figure {
	return []units.Figure{as(one(all, "volume"), "volume_after", "it then fills, at 20 C"), as(one(all, "strength"), "strength_after", "strength then"), as(one(all, "extract"), "extract_after", "extract then")}
}

// trialLiquid is a trial of a liquid: spirit, syrup, juice, water.
func (d *dosing) trialLiquid(what string, v, sample units.Volume) error {
	p, err := blend.ParsePoured(what)
	if err != nil {
		return misread("tasted", err)
	}
	share, err := units.Mass(v).Per(sample) // a share is a share
	if err != nil {
		return misread("tasted", err)
	}
	p.Volume = units.Volume(share.Mass(d.volume))
	name := orName(p.Name, p)
	figures := []units.Figure{scaling.Of("trial_volume", name, float64(p.Volume), 4, "L")}
	d.pour = append(d.pour, d.form.System.Volume(p.Volume)+" of "+name)
	if !d.is["wine"] {
		d.sheet.Add("trial", "From the trial", figures, "What it does to sugar and strength: state the wine, -wine \"at 13 % vol with 20 g/L\".")
		return nil
	}
	m, err := blend.Mix(d.wine.Component, p.Component)
	if err != nil {
		return err
	}
	d.sheet.Add("trial", "From the trial", append(figures, d.after(m.Figures())...), "Its acid is thinned as the volume grows.")
	return nil
}

// orName is a liquid's name, or what it is taken for.
func orName(name string, p blend.Poured) string {
	switch {
	case name != "":
		return name
	case p.Spirit():
		return "spirit"
	case p.StrengthStated:
		return "wine"
	}
	return "juice or syrup"
}
