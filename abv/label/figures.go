package label

import (
	"github.com/shopspring/decimal"

	"example.org/mutage/internal/figure"
	"example.org/mutage/units"
)

// cited is the source, or that there is none.
func cited(source string) string {
	if source == "" {
		return figure.CommonPractice
	}
	return source
}

// Figures are the step and the tolerances of the rule.
func (r Rule) Figures() []units.Figure {
	one := func(key, name string, x decimal.Decimal, source string) units.Figure {
		return units.Figure{Key: key, Name: name, Value: x, Unit: "% vol", Method: "read from the table of law", Source: cited(source)}
	}
	out := []units.Figure{one("label_step", "step of a stated strength", r.Step, r.StepSource)}
	if r.ToleranceSource != "" {
		out = append(out, one("label_tolerance", "tolerance either way", r.Tolerance, r.ToleranceSource))
	}
	if r.WideTo.IsPositive() {
		out = append(out, one("label_tolerance_wide", "tolerance of weaker wine", r.WideTolerance, r.ToleranceSource),
			one("label_tolerance_wide_to", "wine is weaker up to", r.WideTo, r.ToleranceSource))
	}
	return out
}

// Figures are the stated strength and the ends of what it covers.
func (l Label) Figures() []units.Figure {
	one := func(key, name string, x decimal.Decimal, source string) units.Figure {
		return units.Figure{Key: key, Name: name, Value: x, Unit: "% vol", Method: "rounded by the rule of " + l.Rule.Jurisdiction + " for " + l.Rule.Product, Source: cited(source)}
	}
	return []units.Figure{
		one("stated_strength", "strength on the label", l.Stated, l.Rule.StepSource),
		one("stated_strength_low", "weakest wine the label covers", l.Low, l.Rule.ToleranceSource),
		one("stated_strength_high", "strongest wine the label covers", l.High, l.Rule.ToleranceSource),
	}
}

// Figures are what the limits were compared with.
func (c Classification) Figures() []units.Figure {
	total := figure.Method{Method: "actual alcohol, and the sugar at 16.83 g/L for 1 % vol", Source: "French order of 14 September 2011, Annexes I 1.2 and IV (after OIV Oeno 21/2004)"}
	model := figure.Method{Method: "density of ethanol, sucrose and water", Source: "OIML R 22; ICUMSA SPS-4; additive excess volumes"}
	return []units.Figure{
		figure.Method{Method: "as stated", Source: "input"}.Of("strength", "strength", float64(c.Strength), 2, "% vol"),
		total.Of("total_strength_low", "total alcohol, low end", float64(c.TotalLow), 2, "% vol"),
		total.Of("total_strength_high", "total alcohol, high end", float64(c.TotalHigh), 2, "% vol"),
		model.Of("total_solids", "total solids", float64(c.Solids), 2, "% mass"),
		model.Of("density", "density at 20 C", float64(c.Density), 1, "kg/m3"),
	}
}

// Figures are the energy and the parts that it comes from.
func (e Energies) Figures() []units.Figure {
	m := figure.Method{Method: "grams times the factors of the label", Source: "Regulation (EU) No 1169/2011, Annex XIV"}
	out := []units.Figure{
		m.Of("energy", "food energy of the serving", e.Total.Kilojoules, 0, "kJ"),
		m.Of("energy_kcal", "food energy of the serving, in kcal", e.Total.Kilocalories, 0, "kcal"),
	}
	for _, p := range []struct {
		key, name string
		energy    Energy
	}{{"alcohol", "alcohol", e.Alcohol}, {"sugar", "sugar", e.Sugar}, {"polyols", "polyols", e.Polyols}, {"acids", "organic acids", e.Acids}} {
		out = append(out, m.Of("energy_of_"+p.key, "food energy of the "+p.name, p.energy.Kilojoules, 0, "kJ"),
			m.Of("energy_kcal_of_"+p.key, "food energy of the "+p.name+", in kcal", p.energy.Kilocalories, 0, "kcal"))
	}
	return out
}
