package uncertainty

import "slices"

// A Tolerance is what is assumed of a reading when its own limits are not
// stated: a half-width, absolute or relative to the value, between whose ends
// the truth lies.
type Tolerance struct {
	Name      string
	HalfWidth float64 // in Unit; a share of the value where Unit is empty
	Unit      string
	Source    string
}

// Of is the half-width at a value, in the unit of the value.
func (t Tolerance) Of(value float64) float64 {
	if t.Unit != "" {
		return t.HalfWidth
	}
	if value < 0 {
		value = -value
	}
	return t.HalfWidth * value
}

// Tolerances of the trade's instruments, assumed where nothing better is stated.
var (
	// ToleranceHydrometer is a hydrometer divided in 0.002 read to half a division.
	// It may also be off by a division itself: test it in water.
	ToleranceHydrometer = Tolerance{"hydrometer divided in 0.002, read to half a division", 0.001, "SG", "common practice, from memory"}
	// ToleranceRefractometer is a hand refractometer read to half a division.
	ToleranceRefractometer = Tolerance{"refractometer divided in 0.2 Brix, read to half a division", 0.1, "% mass", "common practice, no source"}
	// ToleranceThermometer is divided in whole degrees.
	ToleranceThermometer = Tolerance{"thermometer divided in whole degrees", 0.4, "C", "permitted error, Bavarian hydrometer regulation of 1911 (GVBl. 1911), paragraph 5"}
	// ToleranceJug is a measuring jug filled near its full scale.
	ToleranceJug = Tolerance{"measuring jug", 0.03, "", "2 to 5 % of full scale: common practice, from memory"}
	// ToleranceBottle is a spirit bottle of 376 to 999 mL as filled.
	ToleranceBottle = Tolerance{"bottle fill, 376 to 999 mL", 0.02, "", "27 CFR 19.356(b)"}
	// ToleranceSpirit is a spirit's stated strength.
	ToleranceSpirit = Tolerance{"stated strength of a spirit", 0.3, "% vol", "27 CFR 19.356(c); Regulation (EU) No 1169/2011, Annex XII"}
	// ToleranceSpoon is a level measuring spoon of powder.
	ToleranceSpoon = Tolerance{"level measuring spoon of powder", 0.15, "", "10 to 20 %: common practice, from memory"}
	// ToleranceCup is dry sugar by the cup.
	ToleranceCup = Tolerance{"sugar by the level cup", 0.05, "", "common practice, no source"}
)

// Tolerances lists them all.
func Tolerances() []Tolerance { return slices.Clone(tolerances) }

var tolerances = []Tolerance{ToleranceHydrometer, ToleranceRefractometer, ToleranceThermometer, ToleranceJug, ToleranceBottle, ToleranceSpirit, ToleranceSpoon, ToleranceCup}
