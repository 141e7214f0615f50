package abv

import (
	"math"

	"example.org/mutage/gravity"
	"example.org/mutage/internal/check"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/figure"
	"example.org/mutage/internal/formula"
	"example.org/mutage/units"
)

// driest is the lowest final gravity that the formulas take.
const driest = 0.97

// checkGravities refuses a pair no fermentation gives; fg above og names both.
func checkGravities(og, fg gravity.SG) error {
	if !(og >= 1 && og <= gravity.SG(density.HeaviestGravity)) {
		return check.NotFermented(units.Check("original gravity", float64(og), 1, density.HeaviestGravity, "", density.SourceSucrose))
	}
	if fg >= driest && fg <= og {
		return nil
	}
	return finalGravity(og, fg, driest, "fermented far to not begun")
}

const (
	simpleFormula      = "131.25*({original_gravity}-{final_gravity})"
	alternativeFormula = "76.08*({original_gravity}-{final_gravity})/(1.775-{original_gravity})*{final_gravity}/0.794"
)

var (
	bySimple      = figure.Method{Method: "131.25 (OG - FG)", Source: "C. Papazian, The Complete Joy of Homebrewing, page not read"}
	byAlternative = figure.Method{Method: "76.08 (OG - FG) / (1.775 - OG) FG / 0.794", Source: "M. L. Hall, Zymurgy 18(2), 1995; the coefficients from memory"}
)

// Simple is 131.25 (og - fg): 105 % mass per unit of gravity, 1.25 times that by
// volume. Made for beers of ordinary strength, fermented far. Domain: og 1 to
// 1.3499, fg 0.97 to og. Source: C. Papazian, The Complete Joy of Homebrewing,
// page not read. Error: *units.RangeError.
func Simple(og, fg gravity.SG) (units.Strength, error) {
	if err := checkGravities(og, fg); err != nil {
		return 0, err
	}
	return units.Strength(105 * 1.25 * (og - fg)), nil
}

// Alternative is 76.08 (og - fg) / (1.775 - og) fg / 0.794. It runs high where
// much sugar is left: 15.30 at 1.130 to 1.030, where the official factor gives
// 13.50. Domain as Simple. Source: M. L. Hall, Zymurgy 18(2), 1995; the three
// coefficients are from memory. Error: *units.RangeError.
func Alternative(og, fg gravity.SG) (units.Strength, error) {
	if err := checkGravities(og, fg); err != nil {
		return 0, err
	}
	byMass := 76.08 * (og - fg) / (1.775 - og)
	return units.Strength(byMass * fg / 0.794), nil
}

// ballingEquations are Balling's relations between the must p, the wine's
// apparent extract m and its real extract n (% mass) and the alcohol A (% mass):
//
//	(p - m) / (p - n) = q + 0.001 p,  A = 100 (p - n) / (100 k - (k - 1) p)
//
// k is the grams of extract per gram of alcohol.
type ballingEquations struct{ q, k float64 }

var (
	// Die Bierbrauerei (1854); q fits his table of 1865, 1.231 at 11 % to 1.236
	// at 16 %.
	ballingWort = ballingEquations{1.220, 2.0665}
	// Die Gaerungschemie, wine volume (1865): k; q from 1.224 at 19 % and 1.225
	// at 20 %.
	ballingMust = ballingEquations{1.205, 2.0009}
)

var (
	byBallingWort = figure.Method{Method: "attenuation quotient 1.220 + 0.001 p and 2.0665 g of extract a gram of alcohol", Source: "C. J. N. Balling, Die Bierbrauerei (1854)"}
	byBallingMust = figure.Method{Method: "attenuation quotient 1.205 + 0.001 p and 2.0009 g of extract a gram of alcohol", Source: "C. J. N. Balling, Die Gaerungschemie, wine volume (1865)"}
)

// realExtractFormula and strengthFormula are realExtract and strength for cells;
// real is the key of the real extract.
func (b ballingEquations) realExtractFormula() string {
	return "{original_extract}-({original_extract}-{apparent_extract})/(" + formula.Number(b.q) + "+0.001*{original_extract})"
}

func (b ballingEquations) strengthFormula(real string) string {
	k := formula.Number(b.k)
	return "100*({original_extract}-" + formula.Cell(real) + ")/(100*" + k + "-(" + k + "-1)*{original_extract})*{final_gravity}*" + formula.Number(density.Water20/density.PureEthanol)
}

// realExtract is n from the must and the apparent extract.
func (b ballingEquations) realExtract(p, m float64) float64 {
	q := b.q - 1 + 0.001*p
	return (q*p + m) / (1 + q)
}

// alcohol is A in % mass from the must and the real extract.
func (b ballingEquations) alcohol(p, n float64) float64 {
	return 100 * (p - n) / (100*b.k - (b.k-1)*p)
}

func (b ballingEquations) strength(og, fg gravity.SG) (units.Strength, error) {
	if err := checkGravities(og, fg); err != nil {
		return 0, err
	}
	p, m := 100*density.SucroseOfGravity(float64(og)), 100*density.SucroseOfGravity(float64(fg))
	byMass := b.alcohol(p, b.realExtract(p, m))
	return units.Strength(byMass * float64(fg) * density.Water20 / density.PureEthanol), nil
}

// Balling is the strength by Balling's attenuation theory with the yield of
// wort. He found it on worts of 9 to 16 % extract. Domain as Simple.
// Source: C. J. N. Balling, Die Bierbrauerei (1854). Error: *units.RangeError.
func Balling(og, fg gravity.SG) (units.Strength, error) { return ballingWort.strength(og, fg) }

// BallingMust is Balling with the yield and the attenuation quotient of grape
// must. Domain as Simple. Source: C. J. N. Balling, Die Gaerungschemie, wine
// volume (1865). Error: *units.RangeError.
func BallingMust(og, fg gravity.SG) (units.Strength, error) { return ballingMust.strength(og, fg) }

// officialFactors: up to so many degrees of gravity lost, % vol per degree.
// HMRC Excise Notice 226, section 30.2 to 30.3 (Laboratory of the Government
// Chemist). A band ends where the table prints its last degree.
var officialFactors = []struct{ to, factor float64 }{
	{6.9, 0.125}, {10.4, 0.126}, {17.2, 0.127}, {26.1, 0.128}, {36.0, 0.129}, {46.5, 0.130},
	{57.1, 0.131}, {67.9, 0.132}, {78.8, 0.133}, {89.7, 0.134}, {100.7, 0.135},
}

var byOfficialFactor = figure.Method{Method: "gravity lost in degrees times the factor of the British duty table", Source: "HMRC Excise Notice 226, section 30"}

// officialFormula is OfficialFactor for a cell: the factor is the first of the
// table and a step more for each band that the degrees, to a tenth, have passed.
func officialFormula() string {
	const tenths = "INT(10*{gravity_lost}+0.5)"
	text := formula.Number(officialFactors[0].factor)
	for i, band := range officialFactors[1:] {
		half := formula.Number(math.Round(1e6*(band.factor-officialFactors[i].factor)) / 2e6)
		text += "+" + half + "*(1+SIGN(" + tenths + "-" + formula.Number(math.Round(10*officialFactors[i].to)+0.5) + "))"
	}
	return "{gravity_lost}*(" + text + ")"
}

// OfficialFactor is (og - fg) in degrees (thousandths) times the factor of the
// British duty table for that many degrees. The degrees are rounded to one
// decimal, as they are printed, to find the band; the factor changes between
// bands, so the strength jumps there by up to 0.1 % vol. Domain: og and fg as
// Simple, 0 to 100.7 degrees. Duty rounds the result down to a tenth (see
// LabelRule). Source: HMRC Excise Notice 226, section 30. Error:
// *units.RangeError.
func OfficialFactor(og, fg gravity.SG) (units.Strength, error) {
	if err := checkGravities(og, fg); err != nil {
		return 0, err
	}
	degrees := 1000 * float64(og-fg)
	tabled := math.Round(10*degrees) / 10
	for _, band := range officialFactors {
		if tabled <= band.to {
			return units.Strength(degrees * band.factor), nil
		}
	}
	return 0, units.OutOfRange("", "original less final gravity", degrees, 0, officialFactors[len(officialFactors)-1].to, "degrees", "HMRC Excise Notice 226, section 30")
}
