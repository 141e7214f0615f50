package additions

import (
	"testing"

	"example.org/mutage/gravity"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// Every exported function with a number in it, at both sides of its domain and
// with what is no number.
func TestDomains(t *testing.T) {
	type (
		vol  = units.Volume
		gram = units.Mass
		conc = units.Concentration
	)
	two := func(low, high float64, err error) (float64, error) { return low + high, err }
	handbook.Domains(t, []handbook.Domain{
		{Name: "MolecularSO2 free", Of: func(x float64) (float64, error) { y, err := MolecularSO2(conc(x), 3.4, 1.8); return float64(y), err }, Good: []float64{0, 10}, Bad: []float64{-1e-9, 10.01}},
		{Name: "MolecularSO2 pH", Of: func(x float64) (float64, error) { y, err := MolecularSO2(0.03, x, 1.8); return float64(y), err }, Good: []float64{2.5, 4.5}, Bad: []float64{2.49, 4.51}},
		{Name: "MolecularSO2 pK", Of: func(x float64) (float64, error) { y, err := MolecularSO2(0.03, 3.4, x); return float64(y), err }, Good: []float64{1, 3.5}, Bad: []float64{0.99, 3.51}},
		{Name: "FreeSO2For", Of: func(x float64) (float64, error) { y, err := FreeSO2For(0.0008, x, 1.8); return float64(y), err }, Good: []float64{2.5, 4.5}, Bad: []float64{2.49, 4.51}},
		{Name: "SO2PK strength", Of: func(x float64) (float64, error) { return SO2PK(units.Strength(x), units.Celsius(20)) }, Good: []float64{0, 15}, Bad: []float64{-0.1, 15.1}},
		{Name: "SO2PK temperature", Of: func(x float64) (float64, error) { return SO2PK(10, units.Celsius(x)) }, Good: []float64{20, 40}, Bad: []float64{19.9, 40.1}},
		{Name: "InWine", Of: func(x float64) (float64, error) { return InWine(2, x) }, Good: []float64{0, 0.2}, Bad: []float64{-0.01, 0.201}},
		{Name: "InWine pK", Of: func(x float64) (float64, error) { return InWine(x, 0.1) }, Good: []float64{1, 3.5}, Bad: []float64{0.9, 3.6}},
		{Name: "SO2ByTitration", Of: func(x float64) (float64, error) { y, err := SO2ByTitration(vol(x), 0.1, 0.05); return float64(y), err }, Good: []float64{0, 10}, Bad: []float64{-1, 11}},
		{Name: "FreeFromTotal", Of: func(x float64) (float64, error) {
			a, b, err := FreeFromTotal(conc(x))
			return two(float64(a), float64(b), err)
		}, Good: []float64{0, 10}, Bad: []float64{-1, 11}},
		{Name: "SO2.FreeRange", Of: func(x float64) (float64, error) {
			a, b, err := SO2{Added: conc(x)}.FreeRange()
			return two(float64(a), float64(b), err)
		}, Good: []float64{0, 10}, Bad: []float64{-1, 11}},
		{Name: "SO2ToAdd", Of: func(x float64) (float64, error) {
			a, b, err := SO2ToAdd(conc(x), 0.01)
			return two(float64(a), float64(b), err)
		}, Good: []float64{0.01, 10}, Bad: []float64{0, 11}},
		{Name: "Metabisulfite", Of: func(x float64) (float64, error) { y, err := Metabisulfite(conc(x), 1); return float64(y), err }, Good: []float64{0, 10}, Bad: []float64{-1, 11}},
		{Name: "Metabisulfite volume", Of: func(x float64) (float64, error) { y, err := Metabisulfite(0.1, vol(x)); return float64(y), err }, Good: []float64{0, 1e7}, Bad: []float64{-1, 1e8}},
		{Name: "Sulfite.Dose", Of: func(x float64) (float64, error) {
			y, err := SodiumMetabisulfite.Dose(0.1, 1, x)
			return float64(y), err
		}, Good: []float64{0.5, 1}, Bad: []float64{0, 1.01}},
		{Name: "Sulfite.Adds", Of: func(x float64) (float64, error) {
			y, err := PotassiumBisulfite.Adds(gram(x), 1, 1)
			return float64(y), err
		}, Good: []float64{0, 18}, Bad: []float64{-1, 20}},
		{Name: "SulfiteSolution", Of: func(x float64) (float64, error) { y, err := SulfiteSolution(0.1, 1, conc(x)); return float64(y), err }, Good: []float64{1, 250}, Bad: []float64{0, 251}},
		{Name: "SolutionAdds", Of: func(x float64) (float64, error) { y, err := SolutionAdds(vol(x), 1, 50); return float64(y), err }, Good: []float64{0, 0.2}, Bad: []float64{-1, 100}},
		{Name: "Sorbate", Of: func(x float64) (float64, error) { y, err := Sorbate(conc(x), 1); return float64(y), err }, Good: []float64{0, 3}, Bad: []float64{-1, 3.1}},
		{Name: "Sorbate volume", Of: func(x float64) (float64, error) { y, err := Sorbate(0.2, vol(x)); return float64(y), err }, Good: []float64{0, 1e7}, Bad: []float64{-1, 1e8}},
		{Name: "SorbicAcid", Of: func(x float64) (float64, error) { y, err := SorbicAcid(1, vol(x)); return float64(y), err }, Good: []float64{1, 1e7}, Bad: []float64{0, -1, 1e8}},
		{Name: "SorbicAcidNeeded strength", Of: func(x float64) (float64, error) {
			y, err := SorbicAcidNeeded(units.Strength(x), 3.3)
			return float64(y), err
		}, Good: []float64{10, 14}, Bad: []float64{9.9, 14.1}},
		{Name: "SorbicAcidNeeded pH", Of: func(x float64) (float64, error) { y, err := SorbicAcidNeeded(12, x); return float64(y), err }, Good: []float64{3.1, 3.5}, Bad: []float64{3.09, 3.51}},
		{Name: "SorbicAcidSoluble", Of: func(x float64) (float64, error) {
			y, err := SorbicAcidSoluble(units.Strength(x), 3.3)
			return float64(y), err
		}, Good: []float64{0, 20}, Bad: []float64{-1, 20.1}},
		{Name: "Weigh", Of: func(x float64) (float64, error) { m, err := Weigh(GranulatedSugar, vol(x)); return float64(m), err }, Good: []float64{0, 1e7}, Bad: []float64{-1, 1e8}},
		{Name: "Spoons", Of: func(x float64) (float64, error) {
			p, err := Spoons(GranulatedSugar, gram(x))
			return float64(p.Volume), err
		}, Good: []float64{0, 1e10}, Bad: []float64{-1, 1e11}},
		{Name: "Packet.Holds", Of: func(x float64) (float64, error) { m, err := Packet{"t", 0.4, 0.5}.Holds(x); return float64(m), err }, Good: []float64{0, 1e6}, Bad: []float64{-1, 1e7}},
		{Name: "Packet.For", Of: func(x float64) (float64, error) { return Packet{"t", 0.4, x}.For(1) }, Good: []float64{0.1, 1}, Bad: []float64{0, 1.1}},
		{Name: "NutrientDose", Of: func(x float64) (float64, error) {
			m, err := NutrientDose(conc(x), 1, AmmoniumSulfate)
			return float64(m), err
		}, Good: []float64{0, 2}, Bad: []float64{-1, 2.1}},
		{Name: "NitrogenAdded", Of: func(x float64) (float64, error) {
			c, err := NitrogenAdded(gram(x), 1, AmmoniumSulfate)
			return float64(c), err
		}, Good: []float64{0, 9}, Bad: []float64{-1, 10}},
		{Name: "NitrogenWanted", Of: func(x float64) (float64, error) { c, err := NitrogenWanted(conc(x), HighNeed); return float64(c), err }, Good: []float64{0, 400}, Bad: []float64{-1, 401}},
		{Name: "Staged", Of: func(x float64) (float64, error) { s, err := Staged(gram(x), 2); return float64(len(s)), err }, Good: []float64{0, 100}, Bad: []float64{-1}},
		{Name: "Pitch", Of: func(x float64) (float64, error) { p, err := Pitch(gravity.SG(x), 0, 1); return float64(p.Yeast), err }, Good: []float64{1, 1.3}, Bad: []float64{0.99, 1.36}},
		{Name: "Practice.For", Of: func(x float64) (float64, error) {
			a, b, err := Practice{Low: 1, High: 2, Unit: "g/L"}.For(vol(x))
			return two(float64(a), float64(b), err)
		}, Good: []float64{0, 1e7}, Bad: []float64{-1, 1e8}},
		{Name: "WoodDose", Of: func(x float64) (float64, error) { d, err := WoodDose(x, 1, 12, OakChips); return float64(d.Mass), err }, Good: []float64{0, 5}, Bad: []float64{-1, 5.1}},
		{Name: "Wooded", Of: func(x float64) (float64, error) {
			d, err := Wooded(gram(x), 1, 12, OakChips)
			return float64(d.Mass), err
		}, Good: []float64{0, 200}, Bad: []float64{-1, 201}},
		{Name: "Block", Of: func(x float64) (float64, error) { w, err := Block("b", 10, x, 1, 1); return w.Surface, err }, Good: []float64{0.05, 300}, Bad: []float64{0, 301}},
	})
}
