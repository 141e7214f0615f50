package additions

import (
	"example.org/mutage/internal/check"
	"example.org/mutage/units"
)

// A Nutrient brings nitrogen that yeast can use; Nitrogen is its share. Write
// another one from its label.
type Nutrient struct {
	Name     string
	Nitrogen float64
	Source   string
}

// Nutrients. Legal ceilings are in the table of CheckLimits.
var (
	DiammoniumPhosphate = Nutrient{"diammonium phosphate", 0.2579 * ammoniaNitrogen, "25.79 % NH3: OIV Codex, diammonium hydrogen phosphate (Oeno 15/2000)"}
	AmmoniumSulfate     = Nutrient{"ammonium sulfate", 2 * 14.007 / 132.14, "molar masses, from memory"}
)

// g N per g NH3: Megazyme technical support prints 0.8224
const ammoniaNitrogen = 14.0067 / 17.031

const maxNitrogen units.Concentration = 2

func (n Nutrient) check() error {
	return units.Check("nitrogen in the nutrient", n.Nitrogen, 0.001, 0.83, "", check.Bound)
}

// NutrientDose is the nutrient that adds so much assimilable nitrogen to v.
// Domain: nitrogen 0 to 2 g/L, volume 0 to 1e7 L. Error: *units.RangeError.
func NutrientDose(nitrogen units.Concentration, v units.Volume, n Nutrient) (units.Mass, error) {
	if err := check.First(check.Level("nitrogen to add", nitrogen, maxNitrogen), check.Treated(v), n.check()); err != nil {
		return 0, err
	}
	return units.Mass(float64(nitrogen) * float64(v) / n.Nitrogen), nil
}

// NitrogenAdded is the nitrogen that a weighed nutrient adds to v: the inverse of
// NutrientDose. Domain: up to 2 g/L, volume above 0. Error: *units.RangeError.
func NitrogenAdded(m units.Mass, v units.Volume, n Nutrient) (units.Concentration, error) {
	if err := check.First(check.Weighed(m), check.Vessel(v), n.check()); err != nil {
		return 0, err
	}
	c := units.Concentration(float64(m) / float64(v) * n.Nitrogen)
	if err := check.Level("nitrogen added", c, maxNitrogen); err != nil {
		return 0, err
	}
	return c, nil
}

// YeastNeed is how much nitrogen a yeast asks for, in g per g of sugar.
type YeastNeed float64

// Needs of yeasts: 0.75, 0.90 and 1.25 mg of nitrogen per gram of sugar, from
// memory; the yeast's own sheet is better. Minima of 120 to 140 mg/L, and 200
// to 267 mg/L in other texts, are reported for grape must (from memory).
const (
	LowNeed    YeastNeed = 0.00075
	MediumNeed YeastNeed = 0.00090
	HighNeed   YeastNeed = 0.00125
)

// NitrogenWanted is the assimilable nitrogen for so much sugar to ferment:
// where the wine is stopped early, count only the sugar that is to go. Domain:
// sugar 0 to 400 g/L, need 0 to 0.003. Error: *units.RangeError.
func NitrogenWanted(sugar units.Concentration, need YeastNeed) (units.Concentration, error) {
	if err := check.First(check.Level("sugar to ferment", sugar, 400), units.Check("nitrogen need of the yeast", float64(need), 0, 0.003, "g/g sugar", check.Bound)); err != nil {
		return 0, err
	}
	return sugar * units.Concentration(need), nil
}

// A Stage is a part of a dose and when it goes in.
type Stage struct {
	Mass units.Mass
	When string
}

// Staged divides a nutrient dose: one part when the yeast shows life, then as
// the sugar goes, the last before a third of it is gone (common practice, no
// source). Domain: 1 to 3 stages. Error: *units.RangeError.
func Staged(m units.Mass, stages int) ([]Stage, error) {
	when := []string{"when fermentation shows", "a day later", "when a third of the sugar is gone, not after"}
	if err := check.First(check.Weighed(m), units.Check("number of stages", float64(stages), 1, float64(len(when)), "", "common practice")); err != nil {
		return nil, err
	}
	out := make([]Stage, stages)
	for i := range out {
		out[i] = Stage{m / units.Mass(stages), when[i]}
	}
	if stages == 2 {
		out[1].When = when[2]
	}
	return out, nil
}
