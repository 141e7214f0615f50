// Package molar holds molar masses and what follows from them, and the few laws
// of solutions that acids, sulfite and sorbate share.
package molar

import (
	"math"

	"example.org/mutage/internal/check"
	"example.org/mutage/units"
)

// Molar masses in g/mol.
const (
	Sucrose                = 342.296 // CRC Handbook, 102nd ed.
	Hexose                 = 180.156 // glucose or fructose; from memory, as to Potassium: sums of atomic weights
	Water                  = 18.015
	Ethanol                = 46.068
	CarbonDioxide          = 44.010
	Potassium              = 39.098
	TartaricAcid           = 150.09 // AWRI Technical Note TN14
	SulfuricAcid           = 98.08  // AWRI Technical Note TN14
	PotassiumBitartrate    = TartaricAcid - 1.008 + Potassium
	SulfurDioxide          = 64.066 // sum of atomic weights, for which the OIV Codex prints 64.07
	PotassiumMetabisulfite = 222.33 // FAO/WHO JECFA (53rd JECFA 1999, FNP 52 Add. 7)
	SorbicAcid             = 112.13 // OIV Codex COEI-1-POTSOR
	PotassiumSorbate       = 150.22 // OIV Codex COEI-1-POTSOR
)

const (
	// Inversion is the g of glucose and fructose from 1 g of sucrose: it takes up
	// water.
	Inversion = 2 * Hexose / Sucrose
	// HexoseInHydrate is the share of dextrose in its monohydrate.
	HexoseInHydrate = Hexose / (Hexose + Water)

	// EthanolOfHexose and CarbonDioxideOfHexose are g from 1 g of glucose or
	// fructose by the bare equation, no yeast grown: the most carbon dioxide there
	// can be. Balling's must yield gives 2 % less.
	EthanolOfHexose       = 2 * Ethanol / Hexose
	CarbonDioxideOfHexose = 2 * CarbonDioxide / Hexose

	// TartaricEquivalent is the g of tartaric acid per mole of alkali, 75.045;
	// SulfuricEquivalent that of sulfuric acid, 49.04.
	TartaricEquivalent = TartaricAcid / 2
	SulfuricEquivalent = SulfuricAcid / 2

	// SO2OfMetabisulfite is the share of SO2 in K2S2O5, 0.576.
	SO2OfMetabisulfite = 2 * SulfurDioxide / PotassiumMetabisulfite
	// SO2Equivalent is the g of SO2 per mole of iodine or, as H2SO4, of alkali.
	SO2Equivalent = SulfurDioxide / 2
	// SorbicOfSorbate is the share of sorbic acid in potassium sorbate, 0.7464.
	SorbicOfSorbate = SorbicAcid / PotassiumSorbate
)

// Gas is the molar gas constant in J/(mol K): exact, SI 2019.
const Gas = 8.314462618

// DebyeHueckel is the constant of water at 25 C for log10, from memory. With it
// the pKs at ionic strengths of 0.05 and 0.1 that Prenesti et al. (Sci. World J.
// (2012) 249041) give for water come out within 0.06.
const DebyeHueckel = 0.509

// Pow10 is 10^x.
func Pow10(x float64) float64 { return math.Exp(math.Ln10 * x) }

// Titrated is mol of titrant per litre of sample. Domain: titrant 0 to 10 L,
// normality 0.001 to 2 mol/L, sample 0.1 mL to 10 L. Error: *units.RangeError.
func Titrated(titrant units.Volume, normality float64, sample units.Volume) (float64, error) {
	if err := check.First(units.Check("volume of titrant", float64(titrant), 0, 10, "L", check.Bound),
		units.Check("normality", normality, 0.001, 2, "mol/L", check.Bound),
		units.Check("sample", float64(sample), 1e-4, 10, "L", check.Bound)); err != nil {
		return 0, err
	}
	return float64(titrant/sample) * normality, nil
}
