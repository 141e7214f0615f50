package units

// Volumes. The US gallon is 231 cubic inches, its parts are exact (NIST
// Handbook 44, Appendix C); the imperial gallon is 4.54609 L (UK Weights and
// Measures Act 1985). USTablespoon and USTeaspoon are the customary 1/256 and
// 1/768 of a gallon; LabelTablespoon and LabelTeaspoon are the 15 and 5 mL of
// nutrition labels (21 CFR 101.9(b)(5)(viii)).
const (
	Litre      Volume = 1
	Millilitre        = Litre / 1000
	Hectolitre        = 100 * Litre

	USGallon     = 3.785411784 * Litre
	USQuart      = USGallon / 4
	USPint       = USGallon / 8
	USCup        = USGallon / 16
	USFluidOunce = USGallon / 128
	USTablespoon = USGallon / 256
	USTeaspoon   = USGallon / 768

	ImperialGallon     = 4.54609 * Litre
	ImperialPint       = ImperialGallon / 8
	ImperialFluidOunce = ImperialGallon / 160

	LabelTablespoon = 15 * Millilitre
	LabelTeaspoon   = 5 * Millilitre
)

// Masses. The pound is 453.59237 g exactly (international pound of 1959).
const (
	Gram      Mass = 1
	Kilogram       = 1000 * Gram
	Milligram      = Gram / 1000
	Pound          = 453.59237 * Gram
	Ounce          = Pound / 16
)

// Units of the other quantities. PSI is the pound-force per square inch.
const (
	KilogramPerCubicMetre Density       = 1
	GramPerMillilitre                   = 1000 * KilogramPerCubicMetre
	GramPerLitre          Concentration = 1
	MilligramPerLitre                   = GramPerLitre / 1000
	PercentVol            Strength      = 1
	PercentMass           MassPercent   = 1
	Kilopascal            Pressure      = 1
	Bar                                 = 100 * Kilopascal
	Atmosphere                          = 101.325 * Kilopascal
	PSI                                 = 4.4482216152605 / 0.64516 * Kilopascal
)
