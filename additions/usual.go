package additions

import (
	"fmt"

	"example.org/mutage/internal/check"
	"example.org/mutage/internal/figure"
	"example.org/mutage/units"
)

// What is usual where nothing is measured or stated.
const (
	// UsualPK is the pK of sulfurous acid on which the tables in use rest: UC
	// Cooperative Extension, Enology Briefs I no. 1 (1982) comes out with it at
	// every tenth of a pH. It has no strength and no temperature; SO2PK has.
	UsualPK = 1.81
	// WineIonicStrength is the mean of wine that the OIV method assumes, mol/L.
	WineIonicStrength = 0.038
	// UsualSorbicAcid is the usual dose together with ethanol and SO2 (UC Davis
	// Viticulture & Enology), and the most that the OIV and the EU allow.
	UsualSorbicAcid = 200 * units.MilligramPerLitre
	// BarrelSurface is the wetted wood of a 225 L barrel in cm2 per litre, as five
	// pairs of chip surface and dose of one study imply (Technical University of
	// Moldova); 80 to 100 from memory.
	BarrelSurface = 91.0
)

// An Addition is something that is dosed by its level in the wine.
type Addition string

// Additions that have a usual dose.
const (
	AddedSO2        Addition = "so2"
	AddedSorbicAcid Addition = "sorbic_acid"
	AddedAcid       Addition = "acid"
	AddedCarbonate  Addition = "carbonate"
	AddedNitrogen   Addition = "nitrogen"
	AddedYeast      Addition = "yeast"
)

// A usual dose is the upper end of what cellars dose at once.
type usualDose struct {
	addition Addition
	name     string
	level    units.Concentration
	source   string
}

var usualDoses = []usualDose{
	{AddedSO2, "SO2", 50 * units.MilligramPerLitre, "free SO2 of 20 to 40 mg/L is the usual target: Understanding Wine Chemistry (2016), Table 17.1; the dose for it: common practice, no source"},
	{AddedSorbicAcid, "sorbic acid", UsualSorbicAcid, "UC Davis Viticulture & Enology, Sorbic acid"},
	{AddedAcid, "acid", 2, string(CommonPractice)},
	{AddedCarbonate, "carbonate", 2, string(CommonPractice)},
	{AddedNitrogen, "assimilable nitrogen", 0.2, "120 to 267 mg/L in all are asked for, from memory"},
	{AddedYeast, "dry yeast", 0.25, "AWRI, Active dry wine yeast rehydration: 25 g/hL"},
}

// farAbove is how many times the usual dose is taken for a slip of a unit.
const farAbove = 10

// Overdose is a finding: a dose above the usual one, or ten times that and more,
// which is mostly a slip of a unit. It says nothing of the legal limit.
type Overdose struct {
	Key          string // "so2_far_above_usual", "acid_above_usual"
	Level, Usual units.Concentration
	Text, Source string
}

var (
	besideUsual = figure.Method{Method: "dose asked for beside the usual one"}
	ofAsked     = figure.Quantity{Key: "dose_asked", Name: "dose asked for", Unit: "g/L", Places: 3}
	ofUsual     = figure.Quantity{Key: "dose_usual", Name: "usual dose, at most", Unit: "g/L", Places: 3}
)

// Figures are the dose and the usual one.
func (o Overdose) Figures() []units.Figure {
	m := from(besideUsual, o.Source)
	return []units.Figure{m.Give(ofAsked, float64(o.Level)), m.Give(ofUsual, float64(o.Usual))}
}

// FarAboveUsual says whether so much of an addition is ten times its usual dose
// and more. Domain: 0 to 1e6 g/L. Errors: *units.ParseError for an addition
// without a usual dose, *units.RangeError.
func FarAboveUsual(a Addition, level units.Concentration) (Overdose, bool, error) {
	u, err := usualOf(a, level)
	if err != nil || level < farAbove*u.level*(1-1e-9) {
		return Overdose{}, false, err
	}
	text := fmt.Sprintf("%s of %s is %v times the usual dose of %s: a slip of the unit? Do not add it before you are sure.",
		u.say(level), u.name, units.Round(float64(level/u.level), 0), u.say(u.level))
	return Overdose{string(a) + "_far_above_usual", level, u.level, text, u.source}, true, nil
}

// AboveUsual says whether so much of an addition is more than cellars dose at
// once. Domain and errors as FarAboveUsual; Key is "acid_above_usual".
func (a Addition) AboveUsual(level units.Concentration) (Overdose, bool, error) {
	u, err := usualOf(a, level)
	if err != nil || level <= u.level*(1+1e-9) {
		return Overdose{}, false, err
	}
	text := fmt.Sprintf("%s of %s is more than the %s that cellars dose at once (%s): measure first, and add it in portions.", u.say(level), u.name, u.say(u.level), u.source)
	return Overdose{string(a) + "_above_usual", level, u.level, text, u.source}, true, nil
}

// usualOf is the usual dose of an addition, for a level that can be one.
func usualOf(a Addition, level units.Concentration) (usualDose, error) {
	err := &units.ParseError{Text: string(a), Quantity: "addition with a usual dose"}
	for _, u := range usualDoses {
		if u.addition == a {
			return u, units.CheckOf(u.name, "dose", float64(level), 0, 1e6, "g/L", check.Bound)
		}
		err.Expected = append(err.Expected, string(u.addition))
	}
	return usualDose{}, err
}

// say is a level in the unit of the usual dose, to a digit more where it is small.
func (u usualDose) say(level units.Concentration) string {
	unit, name := units.GramPerLitre, "g/L"
	if u.level < 0.5 {
		unit, name = units.MilligramPerLitre, "mg/L"
	}
	places := int32(0)
	if level.In(unit) < 10 {
		places = 1
	}
	return units.Round(level.In(unit), places).String() + " " + name
}
