package additions

import (
	"example.org/mutage/internal/check"
	"example.org/mutage/internal/molar"
	"example.org/mutage/units"
)

// A Sulfite is a salt that carries SO2; SO2 is its share by formula.
type Sulfite struct {
	Name   string
	SO2    float64
	Source string
}

// Sulfites. K2S2O5 has 57.6 % by formula; 50 % is a practical allowance for
// old or damp salt: give the purity.
var (
	PotassiumMetabisulfite = Sulfite{"potassium metabisulfite", molar.SO2OfMetabisulfite, "molar mass: FAO/WHO JECFA (53rd JECFA 1999)"}
	SodiumMetabisulfite    = Sulfite{"sodium metabisulfite", 2 * molar.SulfurDioxide / 190.11, "molar mass from memory"}
	PotassiumBisulfite     = Sulfite{"potassium bisulfite", 0.533, "OIV Codex COEI-1-POTBIS (Oeno 38/2000)"}
)

// metabisulfite is what Metabisulfite weighs; changing the exported one does not change it.
var metabisulfite = PotassiumMetabisulfite

func (s Sulfite) check(purity float64) error {
	return check.First(units.Check("SO2 in the salt", s.SO2, 0.1, 0.7, "", check.Bound), units.Check("purity", purity, 0.5, 1, "", "wine grade is 0.95 or more"))
}

// Dose is the salt of this purity (1 is pure) that adds so much SO2 to v.
// Domain: SO2 0 to 10 g/L, volume 0 to 1e7 L, purity 0.5 to 1. Error:
// *units.RangeError. The dust hurts eyes and lungs, acid drives SO2 out of it,
// and some people with asthma must not have it: see Cautions.
func (s Sulfite) Dose(so2 units.Concentration, v units.Volume, purity float64) (units.Mass, error) {
	if err := check.First(check.Level("SO2 to add", so2, check.MostSO2), check.Treated(v), s.check(purity)); err != nil {
		return 0, err
	}
	return units.Mass(float64(so2) * float64(v) / (s.SO2 * purity)), nil
}

// Adds is the SO2 that a weighed salt adds to v: the inverse of Dose. Domain: up
// to 10 g/L, volume above 0, purity 0.5 to 1. Error: *units.RangeError.
func (s Sulfite) Adds(m units.Mass, v units.Volume, purity float64) (units.Concentration, error) {
	if err := check.First(check.Weighed(m), check.Vessel(v), s.check(purity)); err != nil {
		return 0, err
	}
	c := units.Concentration(float64(m) / float64(v) * s.SO2 * purity)
	if err := check.Level("SO2 added", c, check.MostSO2); err != nil {
		return 0, err
	}
	return c, nil
}

// Metabisulfite is the potassium metabisulfite, K2S2O5, pure, that adds so much
// SO2 to v: 1.735 g per g of SO2. Domain: SO2 0 to 10 g/L, volume 0 to 1e7 L.
// Error: *units.RangeError. For a lesser purity see Sulfite.Dose.
func Metabisulfite(so2 units.Concentration, v units.Volume) (units.Mass, error) {
	return metabisulfite.Dose(so2, v, 1)
}

// SO2 in solutions in use, in g per litre of solution: 5 % SO2, and 100 g
// K2S2O5 made up to a litre with water.
const (
	FivePercentSO2          units.Concentration = 50
	TenPercentMetabisulfite units.Concentration = 100 * molar.SO2OfMetabisulfite
)

// SulfiteSolution is the volume of a solution of so many g SO2 per litre that
// adds so much SO2 to v. Domain: solution 1 to 250 g/L; else, and error, as
// Metabisulfite.
func SulfiteSolution(so2 units.Concentration, v units.Volume, solution units.Concentration) (units.Volume, error) {
	if err := check.First(check.Level("SO2 to add", so2, check.MostSO2), check.Treated(v), checkSolution(solution)); err != nil {
		return 0, err
	}
	return v * units.Volume(so2/solution), nil
}

// SolutionAdds is the SO2 that a measured solution adds to v; the volume it
// brings in is counted. The inverse of SulfiteSolution but for that. Domain: up
// to 10 g/L, volume above 0, solution 1 to 250 g/L. Error: *units.RangeError.
func SolutionAdds(pour, v units.Volume, solution units.Concentration) (units.Concentration, error) {
	if err := check.First(check.Treated(pour), check.Vessel(v), checkSolution(solution)); err != nil {
		return 0, err
	}
	c := solution * units.Concentration(pour/(v+pour))
	if err := check.Level("SO2 added", c, check.MostSO2); err != nil {
		return 0, err
	}
	return c, nil
}

func checkSolution(c units.Concentration) error {
	return units.Check("SO2 in the solution", float64(c), 1, 250, "g/L", check.Bound)
}
