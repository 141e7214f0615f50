package batch

import (
	"fmt"
	"strings"

	"example.org/mutage/additions"
	"example.org/mutage/additions/acid"
	"example.org/mutage/internal/figure"
	"example.org/mutage/internal/say"
	"example.org/mutage/units"
)

// A powder is a salt that is dosed by what it brings.
type powder struct {
	key, name, legal string
	method           figure.Method
	of               func(units.Concentration, units.Volume) (units.Mass, error)
	measure          additions.Substance
	is               additions.Addition
	brings           string
}

var metabisulfite, sorbate = powder{"potassium_metabisulfite", "potassium metabisulfite", "sulfite", sulfiting, additions.Metabisulfite,
	additions.MetabisulfitePowder, additions.AddedSO2, "of SO2, most of it bound"},
	powder{"potassium_sorbate", "potassium sorbate", "sorbate", sorbating, additions.Sorbate,
		additions.SorbatePowder, additions.AddedSorbicAcid, "of sorbic acid, only together with SO2"}

// dose is the figure of a powder that brings so much to a volume.
func (p powder) dose(key string, c units.Concentration, v units.Volume) (units.Figure, error) {
	m, err := p.of(c, v)
	if err != nil {
		return units.Figure{}, inField(p.legal, err)
	}
	f := p.method.Of(key, p.name, float64(m), 2, "g")
	var notes []string
	if spoons, err := additions.Spoons(p.measure, m); err == nil {
		switch k := spoons.Stock; {
		case spoons.Printed > 0:
			notes = append(notes, spoons.String())
		case k.Dissolve > 0:
			places := int32(1)
			if k.Pour >= 10*units.Millilitre {
				places = 0
			}
			notes = append(notes, fmt.Sprintf("%v mL of %v g made up to %v mL", k.Pour.Decimal(units.Millilitre, places), float64(k.Dissolve), k.FillTo.Decimal(units.Millilitre, 0)))
		}
	}
	f.Note = strings.Join(append(notes, say.Concentration(c)+" "+p.brings), "; ")
	return f, nil
}

// slip finds a dose of ten times the usual one and more, and more acid than is
// dosed at once: of the others the limits tell.
func (j *job) slip(key string, a additions.Addition, level units.Concentration) error {
	o, far, err := additions.FarAboveUsual(a, level)
	severity := Stop
	if err == nil && !far && a == additions.AddedAcid {
		severity = Warn
		o, far, err = a.AboveUsual(level)
	}
	if far {
		j.find(key, severity, "%s", o.Text)
	}
	return err
}

func (j *job) doseStep() (*Step, error) {
	b, c := j.b, &j.c
	title := "Dose the wine"
	if b.notFermented() {
		title = "Dose the juice"
	}
	if b.PouredSpirit.Known() {
		title = "The dose it had"
	}
	s := j.step("dose", title, clearDays, clearDaysLate)
	for _, dose := range []struct {
		powder
		want Stated[units.Concentration]
	}{{metabisulfite, b.Sulfite}, {sorbate, b.Sorbate}} {
		if dose.want.Value <= 0 {
			continue
		}
		f, err := dose.dose(dose.key, dose.want.Value, c.base.Volume)
		if err != nil {
			return nil, err
		}
		s.Figures = append(s.Figures, f)
		s.Mind = "keep the dust off eyes and lungs"
		if err := j.slip("dose_"+dose.legal, dose.is, dose.want.Value); err != nil {
			return nil, inField(dose.legal, err)
		}
	}
	if b.Acid.Value > 0 {
		m, err := acid.RaiseTA(b.Acid.Value, c.base.Volume, tartaric)
		if err != nil {
			return nil, inField("acid", err)
		}
		f := acidifying.Of("tartaric_acid", "tartaric acid", float64(m), 2, "g")
		f.Note = "adds " + say.Concentration(b.Acid.Value) + " of acid, as tartaric"
		s.Figures = append(s.Figures, f)
		if err := j.slip("dose_acid", additions.AddedAcid, b.Acid.Value); err != nil {
			return nil, inField("acid", err)
		}
	}
	if len(s.Figures) == 0 {
		return nil, nil
	}
	return s, nil
}
