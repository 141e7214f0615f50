package stability

import (
	"fmt"

	"example.org/mutage/additions"
	"example.org/mutage/units"
)

// dryEnough in g/L makes no more than 1 g/L of CO2; a still wine under straight
// cork may hold 1.2 g/L (CETIE Guide No. 1, 2008).
const dryEnough = 2

func (j judged) noSugar() Barrier {
	b := Barrier{"no_sugar", None, float64(j.Sugar.High), dryEnough, "g/L, at most", "no sugar left",
		"2 g/L make 1 g/L of CO2 at most; a still wine may hold 1.2 g/L. Taken at the high end of the sugar", "CETIE Guide No. 1 (2008); stoichiometry"}
	switch {
	case within(b.Value, dryEnough):
		b.Hold = Holds
	case j.Sugar.Low <= 0 && j.Held:
		b.Hold, b.Because = Weak, "there may be none left, and the reading has held; measure the sugar to be sure"
	}
	return b
}

// Strengths in % vol. Alcohol alone inhibits from alcoholAlone on; S. bayanus goes
// to 17 to 20, and some other yeast may be in the must than the one whose limit is
// stated.
const (
	alcoholAlone       = 17.5
	limitMargin        = 1.0
	unknownYeastWeak   = 17.0
	unknownYeastHolds  = 20.0
	sourceAlcohol      = "17.5 % vol inhibits: Y. Margalit, Concepts in Wine Technology, 3rd ed. (2012), not read, summary read"
	sourceUnknownYeast = "S. bayanus 17 to 20 % vol: from memory"
)

// holdingStrength is where alcohol alone holds, and from where it is weak.
func holdingStrength(limit float64) (weak, holds float64) {
	if limit == 0 {
		return unknownYeastWeak, unknownYeastHolds
	}
	return limit, max(limit+limitMargin, alcoholAlone)
}

func (j judged) alcohol() Barrier {
	weak, holds := holdingStrength(float64(j.YeastLimit))
	b := Barrier{"alcohol", grade(j.strength, weak, holds), j.strength, holds, "% vol", "alcohol",
		"limit of the yeast not stated: 17 to 20 % vol stops most", sourceUnknownYeast}
	if j.YeastLimit > 0 {
		b.Because = fmt.Sprintf("stated limit %.4g %% vol and 1 for the uncertainty in it; it is of one yeast only, and others go on to 17.5", float64(j.YeastLimit))
		b.Source = "as stated; the margin of 1: " + string(additions.CommonPractice) + "; " + sourceAlcohol
	}
	return b
}

// Delle units that studies needed: 75 at 200 g/L of sugar, 85 at 50 g/L. No test
// is published below 50 g/L; there the line of that pair is continued to 88.3 at
// none: 10 units for 150 g/L, which is 1 for 15.
const (
	delleWeak       = 75.0
	delleHolds      = 85.0
	delleSugar      = 50.0
	delleNoSugar    = 88.3
	dellePerUnit    = 15.0 // g/L
	delleStrength   = 10.0
	sourceDelle     = "R. E. Kunkee and M. A. Amerine, Applied Microbiology 16:1067 (1968), not read, summary read: 75 at 200 g/L to 85 at 50 g/L; 78 usual (Y. Margalit, Concepts in Wine Technology, 3rd ed., 2012, not read, summary read)"
	becauseDelle    = "published needs run from 75 to 85; taken at the low ends of strength and sugar"
	becauseDelleLow = "no test is published below 50 g/L of sugar: the line of the published pair, continued"
)

func (j judged) alcoholAndSugar() Barrier {
	sugar, need := float64(j.Sugar.Low), delleHolds
	b := Barrier{"alcohol_and_sugar", None, j.delle, need, "Delle units", "alcohol and sugar together", becauseDelle, sourceDelle}
	tested := reaches(sugar, delleSugar)
	if !tested {
		need = max(delleHolds, delleNoSugar-sugar/dellePerUnit) // 88.3 is rounded: the line comes to 85 at 49.5 g/L
		b.Needed, b.Because = need, becauseDelleLow
	}
	least := max(delleStrength, float64(j.YeastLimit))
	enough := reaches(j.delle, need)
	switch {
	case enough && reaches(j.strength, least):
		b.Hold = Holds
	case tested && reaches(j.delle, delleWeak):
		b.Hold = Weak
	}
	if enough && b.Hold != Holds {
		b.Value, b.Needed, b.Unit = j.strength, least, "% vol"
		b.Because = fmt.Sprintf("enough Delle units, but below %.4g %% vol: a yeast that goes further, or no test so weak", least)
	}
	return b
}

// Sorbate. The usual dose is 200 mg/L (UC Davis); a rule commonly attributed to
// Peynaud has 150 at 10 % vol (from memory), where the published table asks for 123
// to 202 by the pH. So the usual dose counts from 150 mg/L: a wine dosed to 200
// that spirit dilutes to 197 has not lost its barrier.
const (
	usualSorbate     = 150.0 // mg/L
	sorbateStrength  = 10.0  // % vol, the table's first row
	sorbateMostPH    = 3.5   // the table's last column
	molecularLeast   = 0.5   // mg/L
	molecularTarget  = 0.8   // mg/L
	sourceUnderhill  = "T. Underhill, Making Better Wines (year and page not known), sorbate table; usual dose 150 (attributed to Peynaud, from memory) to 200 mg/L (UC Davis Viticulture & Enology)"
	sourceMolecular  = "0.5 mg/L the least kept in store: Practical Winery & Vineyard Journal, Jan/Feb 2009; 0.6 to 0.8 wanted: A. L. Waterhouse, G. L. Sacks and D. W. Jeffery, Understanding Wine Chemistry (2016), Table 17.1"
	becauseMolecular = "taken at the low end of the free SO2 and the high end of the pH, with pK 1.81, by which the published needs were worked out"
)

// tableSorbate is the table's need in mg/L, as far as it goes: from 10 % vol and
// up to pH 3.5. Above 14 % vol it is that of 14, below pH 3.1 that of 3.1, because
// the need falls with both.
func (j judged) tableSorbate() (float64, bool) {
	if j.pH == 0 || !reaches(j.strength, sorbateStrength) || !within(j.pH, sorbateMostPH) {
		return 0, false
	}
	row, err := additions.SorbicAcidNeeded(units.Strength(min(max(j.strength, sorbateStrength), 14)), min(max(j.pH, 3.1), sorbateMostPH))
	return row.In(units.MilligramPerLitre), err == nil
}

// SorbateNeeded is the sorbic acid that a wine needs in it for sorbate with sulfite
// to hold, taken at its unfavourable ends; molecular SO2 of 0.5 mg/L is needed beside
// it. listed is false where the table has no row, below 10 % vol or above pH 3.5: there
// it is the usual dose, and sorbate is weak at best. Error as Judge. Dose the wine in
// which it has to work: of what goes into a base before the spirit, the spirit leaves
// only the base's share.
func SorbateNeeded(w Wine) (need units.Concentration, listed bool, err error) {
	j, _, err := w.ends()
	if err != nil {
		return 0, false, err
	}
	if mg, ok := j.tableSorbate(); ok {
		return units.Concentration(mg) * units.MilligramPerLitre, true, nil
	}
	return additions.UsualSorbicAcid, false, nil
}

func (j judged) sorbateWithSulfite() Barrier {
	dose := j.Sorbate.In(units.MilligramPerLitre)
	b := Barrier{"sorbate_with_sulfite", None, dose, additions.UsualSorbicAcid.In(units.MilligramPerLitre), "mg/L sorbic acid", "sorbate with sulfite",
		"usual dose; no table for this strength and pH, so it is weak at best", sourceUnderhill}
	weak := usualSorbate
	need, listed := j.tableSorbate()
	if listed {
		b.Needed, weak = need, min(weak, need)
		b.Because = "published table for clarified wine, by strength and pH, with sulfite"
	}
	enough := reaches(dose, weak)
	if listed {
		enough = reaches(dose, need)
	}
	switch {
	case dose == 0:
		b.Because += "; none is in it"
	case j.free == 0:
		b.Because = "sorbate without sulfite is no barrier, and bacteria spoil it"
	case listed && enough && reaches(j.molecular, molecularLeast):
		b.Hold = Holds
	case reaches(dose, weak):
		b.Hold = Weak
	}
	if enough && b.Hold != Holds {
		j.besideSorbate(&b, listed)
	}
	return b
}

// besideSorbate says what a dose that is enough lacks.
func (j judged) besideSorbate(b *Barrier, listed bool) {
	switch {
	case listed || j.free == 0:
		b.Value, b.Needed, b.Unit = j.molecular, molecularLeast, "mg/L molecular SO2"
		if j.free > 0 {
			b.Because = fmt.Sprintf("the dose is enough, but perhaps only %.2f mg/L of molecular SO2 beside it; 0.5 are needed", j.molecular)
		}
	case !reaches(j.strength, sorbateStrength):
		b.Value, b.Needed, b.Unit = j.strength, sorbateStrength, "% vol"
	default: // too high a pH, or not stated
		b.Value, b.Needed, b.Unit = j.pH, sorbateMostPH, "pH, at most"
	}
}

func (j judged) sulfite() Barrier {
	b := Barrier{"sulfite", None, j.molecular, molecularTarget, "mg/L molecular SO2", "sulfite",
		"it slows yeast and bacteria and does not hold sweet wine by itself; " + becauseMolecular, sourceMolecular}
	switch {
	case j.pH == 0 && j.free > 0:
		b.Hold, b.Because = NotKnown, "without the pH the molecular part cannot be said"
	case reaches(j.molecular, molecularLeast):
		b.Hold = Helps
	}
	return b
}

// Cold in C: yeast rests near and below coldRest and is extremely slow below
// coldSlow.
const coldRest, coldSlow = -1.0, 10.0

func (j judged) cold() Barrier {
	b := Barrier{"cold", NotKnown, 0, coldRest, "C, at most", "cold",
		"below 10 C yeast is extremely slow, near and below -1 C it rests; only while it lasts", "Ough & Amerine, California Agr. Exp. Sta. Bulletin 827 (1966); -4 to 0 C from memory"}
	if !j.Temperature.Stated() {
		return b
	}
	b.Value = j.Temperature.Celsius()
	switch {
	case within(b.Value, coldRest):
		b.Hold = Weak
	case within(b.Value, coldSlow):
		b.Hold = Helps
	default:
		b.Hold = None
	}
	return b
}
