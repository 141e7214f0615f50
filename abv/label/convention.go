package label

import (
	"example.org/mutage/internal/check"
	"example.org/mutage/units"
)

// A Convention is an official number of grams of sugar that count as 1 % vol of
// potential alcohol. The balance of a real fermentation is abv.Potential.
type Convention struct {
	Name   string
	Grams  units.Concentration // per litre and % vol
	Source string
}

// euSugar is what counts as 1 % vol in EU law.
const euSugar units.Concentration = 16.83

// The conventions in official use. They differ by 4 %: name the one you mean.
var (
	ConventionEU       = Convention{"EU", euSugar, "French order of 14 September 2011, Annexes I 1.2 and IV (after OIV Oeno 21/2004)"}
	ConventionPortugal = Convention{"Portugal 1975", 17, "Portugal, Portaria 379/75, article 1: 204 g/L as invert sugar for 12 % vol"}
	ConventionFrance   = Convention{"France before 2011", 17.5, "French order of 14 September 2011, Annex IV (former convention)"}
)

// Potential is the potential alcohol of so much sugar per litre, on paper.
// Domain: sugar 0 to 1000 g/L; Grams 10 to 25. Error: *units.RangeError.
func (c Convention) Potential(sugar units.Concentration) (units.Strength, error) {
	if err := units.Check("sugar", float64(sugar), 0, 1000, "g/L", c.Source); err != nil {
		return 0, err
	}
	if err := units.Check("sugar per % vol", float64(c.Grams), 10, 25, "g/L", c.Source); err != nil {
		return 0, err
	}
	return units.Strength(sugar / c.Grams), nil
}

// Total is actual and potential alcohol together, which the definitions of
// liqueur wine speak of. Domain: actual 0 to 100 % vol, sugar as Potential.
// Error: *units.RangeError.
func (c Convention) Total(actual units.Strength, sugar units.Concentration) (units.Strength, error) {
	if err := check.Strength("actual strength", actual); err != nil {
		return 0, err
	}
	potential, err := c.Potential(sugar)
	if err != nil {
		return 0, err
	}
	return actual + potential, nil
}
