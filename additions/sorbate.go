package additions

import (
	"example.org/mutage/internal/check"
	"example.org/mutage/internal/molar"
	"example.org/mutage/internal/table"
	"example.org/mutage/units"
)

// Sorbate is the potassium sorbate that brings so much sorbic acid to v. It
// goes in with sulfite only and does not stop a running fermentation: see
// SorbateCautions. Domain: sorbic acid 0 to 3 g/L, volume 0 to 1e7 L. Error:
// *units.RangeError.
func Sorbate(sorbicAcid units.Concentration, v units.Volume) (units.Mass, error) {
	if err := check.First(check.Level("sorbic acid", sorbicAcid, check.MostSorbicAcid), check.Treated(v)); err != nil {
		return 0, err
	}
	return units.Mass(float64(sorbicAcid) * float64(v) / molar.SorbicOfSorbate), nil
}

// SorbicAcid is what a weighed potassium sorbate brings to v: the inverse of
// Sorbate. Domain: up to 3 g/L, volume above 0. Error: *units.RangeError.
func SorbicAcid(sorbate units.Mass, v units.Volume) (units.Concentration, error) {
	if err := check.First(check.Weighed(sorbate), check.Vessel(v)); err != nil {
		return 0, err
	}
	c := units.Concentration(float64(sorbate) / float64(v) * molar.SorbicOfSorbate)
	if err := check.Level("sorbic acid added", c, check.MostSorbicAcid); err != nil {
		return 0, err
	}
	return c, nil
}

// sorbateTable[i][j] is mL of a solution of 30 g/L potassium sorbate per litre
// of clarified wine at 10 + i % vol and pH 3.1 + j/10.
var sorbateTable = [5][5]float64{
	{5.5, 6.0, 7.0, 8.0, 9.0},
	{4.5, 5.0, 6.0, 7.0, 7.5},
	{3.2, 3.5, 4.0, 4.5, 5.0},
	{2.6, 3.0, 3.2, 3.5, 4.0},
	{2.0, 2.2, 2.4, 2.7, 3.0},
}

const sourceSorbate = "T. Underhill, Making Better Wines (year and page not known), sorbate table, 10 to 14 % vol and pH 3.1 to 3.5"

// SorbicAcidNeeded is the sorbic acid that holds a clarified, sulfited wine at
// this strength and pH: a published table, straight between its rows and never
// past them. Domain: 10 to 14 % vol, pH 3.1 to 3.5; a weaker wine takes
// UsualSorbicAcid and is less sure. Error: *units.RangeError. Source: T.
// Underhill, Making Better Wines. Advice, not a guarantee.
func SorbicAcidNeeded(s units.Strength, pH float64) (units.Concentration, error) {
	if err := check.First(units.Check("strength", float64(s), 10, 14, "% vol", sourceSorbate),
		units.Check("pH", pH, 3.1, 3.5, "", sourceSorbate)); err != nil {
		return 0, err
	}
	ml := table.Bilinear(sorbateTable[:], float64(s)-10, (pH-3.1)*10)
	return units.Concentration(ml * 30 / 1000 * molar.SorbicOfSorbate), nil
}

// sorbicSoluble is g/L by % vol at pH 3.1: Food Additives Data Book, p. 733.
var sorbicSoluble = [][2]float64{{0, 1.5}, {5, 1.6}, {20, 2.9}}

// SorbicAcidSoluble is the sorbic acid that stays dissolved, as the acid and
// its salt together: 1.5, 1.6 and 2.9 g/L at 0, 5 and 20 % ethanol and pH 3.1
// (Food Additives Data Book, p. 733, straight between), and more at a higher pH
// by its pK of 4.76. Domain: 0 to 20 % vol, pH 2.5 to 4.5. Error:
// *units.RangeError.
func SorbicAcidSoluble(s units.Strength, pH float64) (units.Concentration, error) {
	if err := check.First(units.Check("strength", float64(s), 0, 20, "% vol", "Food Additives Data Book (Smith & Hong-Shum eds.), p. 733"),
		units.Check("pH", pH, minSO2PH, maxSO2PH, "", "must and wine")); err != nil {
		return 0, err
	}
	const pK = 4.76
	return units.Concentration(table.Linear(sorbicSoluble, float64(s)) * (1 + molar.Pow10(pH-pK)) / (1 + molar.Pow10(3.1-pK))), nil
}

// A Note is a sentence that belongs to a result, with what it rests on.
type Note struct{ Text, Source string }

// SorbateCautions are what must be said with every dose of sorbate, one more
// where no free SO2 is there too.
func SorbateCautions(freeSO2 units.Concentration) []Note {
	notes := []Note{
		{"Sorbate does not stop a running fermentation. Let the wine fall clear, and dose what little yeast is left.", "Institut Français de la Vigne et du Vin, technical sheet Acide sorbique"},
		{"Sorbate does not act on lactic or acetic bacteria.", "University of Minnesota Enology (K. Cook), 2014"},
	}
	if !(freeSO2 > 0) {
		notes = append(notes, Note{"Never without sulfite: lactic bacteria make a geranium odour of sorbic acid.", "Oxford Companion to Wine, 3rd ed. (2006), entry geranium"})
	}
	return notes
}
