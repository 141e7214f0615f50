package stability

import (
	"fmt"

	"example.org/mutage/additions"
	"example.org/mutage/internal/check"
	"example.org/mutage/units"
)

// Wine is what Judge and SealedPressure look at. A zero in any but the first
// two fields means that it is not known (for storage at 0 C write 0.1).
type Wine struct {
	Strength    units.Strength
	Sugar       units.Concentration // fermentable, as glucose and fructose
	PH          float64
	FreeSO2     units.Concentration
	Sorbate     units.Concentration // as sorbic acid
	Tolerance   units.Strength      // where this yeast gives up
	Temperature units.Temperature   // the warmest it will be kept
}

// Outlook is the word of a verdict.
type Outlook string

// The three words. None of them says that a bottle is safe.
const (
	Still    Outlook = "should stay still"
	Doubtful Outlook = "may ferment: doubtful"
	Ferments Outlook = "will ferment"
)

// Hold is how far a barrier goes.
type Hold string

// Holds: Strong is beyond every published threshold, Weak between them, Helps
// counts only beside others, None is below, NotKnown where a figure is missing
// or no source goes there.
const (
	Strong   Hold = "holds"
	Weak     Hold = "weak"
	Helps    Hold = "helps others"
	None     Hold = "no barrier"
	NotKnown Hold = "not known"
)

// A Barrier is one thing that keeps yeast from the sugar: what it is here, what
// it would have to be, and who says so.
type Barrier struct {
	Name          string
	Hold          Hold
	Value, Needed float64
	Unit          string
	Because       string
	Source        string
}

// Verdict is the outlook with its reasons, and what it does not rest on.
type Verdict struct {
	Outlook      Outlook
	DelleUnits   float64
	MolecularSO2 units.Concentration
	Barriers     []Barrier
	NotChecked   []string
	Notes        []additions.Note
}

// Thresholds in Delle units: what studies needed at 200 g/L and at 50 g/L of
// sugar; 78 is usual, a trade article asks for about 80.
const (
	delleLow, delleHigh = 75, 85
	delleLeastSugar     = 50
	sourceDelle         = "Kunkee & Amerine, Appl. Microbiol. 16 (1968), in secondary summary: 75 at 200 g/L to 85 at 50 g/L; 78 usual (Margalit 2012, in secondary summary); about 80 (British Columbia fruit-grower trade magazine)"
)

// DelleUnits are DU = S + 4.5 A with S in g/100 mL and A in % vol. Domain:
// strength 0 to 100, sugar 0 to 1000 g/L. Error: *units.RangeError. Source:
// Amerine & Kunkee, Vitis 5 (1965). Published thresholds run from 75 to 85.
func DelleUnits(s units.Strength, sugar units.Concentration) (float64, error) {
	if err := check.First(units.Check("strength", float64(s), 0, 100, "% vol", ""), check.Level("sugar", sugar, 1000)); err != nil {
		return 0, err
	}
	return float64(sugar)/10 + 4.5*float64(s), nil
}

// Judge says whether a wine with sugar in it is likely to stay still: each
// barrier for itself, and a word. It should stay still where one barrier goes
// beyond every published threshold; it is doubtful where the best of them is
// weak. Domain: pH 2.5 to 4.5 where known, free SO2 to 10 g/L, sorbic acid to
// 3 g/L, tolerance to 30 % vol, temperature -20 to 60 C. Error:
// *units.RangeError. It never says that a bottle is safe.
func Judge(w Wine) (Verdict, error) {
	du, err := DelleUnits(w.Strength, w.Sugar)
	if err := check.First(err, check.Level("sorbic acid", w.Sorbate, check.MostSorbicAcid), check.Level("free SO2", w.FreeSO2, check.MostSO2),
		units.Check("tolerance of the yeast", float64(w.Tolerance), 0, 30, "% vol", check.Bound),
		checkStored(w.Temperature)); err != nil {
		return Verdict{}, err
	}
	v := Verdict{DelleUnits: du, NotChecked: []string{
		"live yeast left",
		"bacteria",
		"the readings",
		"closure and bottle",
	}}
	if w.PH != 0 {
		if v.MolecularSO2, err = additions.MolecularSO2(w.FreeSO2, w.PH, additions.UsualPK); err != nil {
			return Verdict{}, err
		}
	}
	v.Barriers = []Barrier{w.dry(), w.alcohol(), w.delle(du), w.sulfite(v.MolecularSO2), w.sorbate(v.MolecularSO2), w.cold()}
	v.Outlook = Ferments
	for _, b := range v.Barriers {
		switch {
		case b.Hold == Strong:
			v.Outlook = Still
		case b.Hold == Weak && v.Outlook == Ferments:
			v.Outlook = Doubtful
		}
	}
	if w.Sorbate > 0 {
		v.Notes = additions.SorbateCautions(w.FreeSO2)
	}
	if w.Sugar > dryEnough {
		v.Notes = append(v.Notes, additions.Note{Text: "If it does ferment in a closed bottle, the bottle can burst. Keep doubtful wine under an airlock.", Source: string(additions.CommonPractice)})
	}
	return v, nil
}

// at grades a value against the thresholds of a weak and a strong barrier.
func at(value, weak, strong float64) Hold {
	switch {
	case value >= strong:
		return Strong
	case value >= weak:
		return Weak
	}
	return None
}

// Sugar that cannot make more than 1 g/L of CO2; a still wine under straight
// cork may hold 1.2 g/L (CETIE Guide No. 1, 2008).
const dryEnough units.Concentration = 2

func (w Wine) dry() Barrier {
	b := Barrier{"no sugar left", None, float64(w.Sugar), float64(dryEnough), "g/L, at most",
		"2 g/L make 1 g/L of CO2 at most; a still wine may hold 1.2 g/L", "CETIE Guide No. 1 (2008); stoichiometry"}
	if w.Sugar <= dryEnough {
		b.Hold = Strong
	}
	return b
}

// Where yeast gives up if nobody knows the strain: S. bayanus 17 to 20 % vol.
const toleranceLow, toleranceHigh = 17, 20

func (w Wine) alcohol() Barrier {
	if w.Tolerance == 0 {
		return Barrier{"alcohol", at(float64(w.Strength), toleranceLow, toleranceHigh), float64(w.Strength), toleranceHigh, "% vol",
			"strain not known: 17 to 20 % vol stops most; hardy ones are said to go into the low twenties", "general reference on yeast in winemaking (S. bayanus); the last: " + string(additions.CommonPractice)}
	}
	limit := float64(w.Tolerance)
	return Barrier{"alcohol", at(float64(w.Strength), limit, limit+1), float64(w.Strength), limit + 1, "% vol",
		"stated limit of the yeast, and 1 % vol for the doubt in it", "as stated; the margin: " + string(additions.CommonPractice)}
}

func (w Wine) delle(du float64) Barrier {
	b := Barrier{"alcohol and sugar together", at(du, delleLow, delleHigh), du, delleHigh, "Delle units",
		"published thresholds run from 75 to 85, by sugar, yeast and when the spirit went in", sourceDelle}
	if w.Sugar < delleLeastSugar && b.Hold != None {
		b.Hold, b.Because = NotKnown, "no published test below 50 g/L of sugar: only the alcohol counts"
	}
	return b
}

// Molecular SO2 in mg/L: what microbial stability asks, and the least kept in
// store. Understanding Wine Chemistry (2016), Table 17.1; Henderson, Practical
// Winery & Vineyard Journal, Jan/Feb 2009.
const molecularTarget, molecularLow = 0.8, 0.5

func (w Wine) sulfite(molecular units.Concentration) Barrier {
	mg := molecular.In(units.MilligramPerLitre)
	b := Barrier{"sulfite", None, mg, molecularTarget, "mg/L molecular SO2",
		"it slows yeast and stops bacteria; it does not hold sweet wine by itself", "Understanding Wine Chemistry (2016), Table 17.1; pK 1.81"}
	if mg >= molecularTarget {
		b.Hold = Helps
	}
	if w.PH == 0 && w.FreeSO2 > 0 {
		b.Hold, b.Because = NotKnown, "without the pH the molecular part cannot be said"
	}
	return b
}

// The table of additions.SorbicAcidNeeded.
const sourceUnderhill = "T. Underhill, Making Better Wines, sorbate table; beyond its last row, 14 % vol, the alcohol itself does the work"

func (w Wine) sorbate(molecular units.Concentration) Barrier {
	need, hold, because := additions.UsualSorbicAcid, Weak, "the usual dose; below 10 % vol no published table vouches for it"
	if w.Strength >= 10 {
		// Past the last row more alcohol needs no more, left of the first
		// column less pH needs no more.
		row, err := additions.SorbicAcidNeeded(min(w.Strength, 14), max(w.PH, 3.1))
		if err == nil && w.PH > 0 {
			need, hold, because = row, Strong, "published table for clarified wine, by strength and pH, with sulfite"
		} else {
			because = "pH not known or above 3.5: no row of the table"
		}
	}
	b := Barrier{"sorbate with sulfite", hold, w.Sorbate.In(units.MilligramPerLitre), need.In(units.MilligramPerLitre), "mg/L sorbic acid", because, sourceUnderhill}
	switch mg := molecular.In(units.MilligramPerLitre); {
	case w.Sorbate < need*(1-1e-9):
		b.Hold, b.Because = None, "less than needed"
	case mg < molecularLow && w.FreeSO2 == 0:
		b.Hold, b.Because = None, "no sulfite: sorbate alone is no barrier and bacteria spoil it"
	case mg < molecularLow && hold == Strong:
		b.Hold, b.Because = Weak, fmt.Sprintf("only %.2f mg/L molecular SO2 beside it, %.1f is the least", mg, molecularLow)
	}
	return b
}

// checkStored looks at a temperature only where one is stated.
func checkStored(t units.Temperature) error {
	if !t.Stated() {
		return nil
	}
	return units.Check("temperature", t.Celsius(), -20, 60, "C", check.Bound)
}

func (w Wine) cold() Barrier {
	at := 0.0
	if w.Temperature.Stated() {
		at = w.Temperature.Celsius()
	}
	b := Barrier{"cold", None, at, 10, "C, at most",
		"below 10 C yeast is extremely slow, near and below -1 C it rests; only while it lasts", "Ough & Amerine, California Agr. Exp. Sta. Bulletin 827 (1966); -4 to 0 C from memory"}
	switch {
	case !w.Temperature.Stated():
		b.Hold = NotKnown
	case w.Temperature <= units.Celsius(-1):
		b.Hold = Weak
	case w.Temperature <= units.Celsius(10):
		b.Hold = Helps
	}
	return b
}
