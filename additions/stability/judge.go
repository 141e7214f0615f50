package stability

import (
	"fmt"
	"math"

	"example.org/mutage/abv"
	"example.org/mutage/additions"
	"example.org/mutage/internal/check"
	"example.org/mutage/internal/molar"
	"example.org/mutage/units"
)

// Wine is what Judge and SealedPressure look at. A zero means not stated, but
// for Strength, Sugar (none) and the uncertainties (exact).
type Wine struct {
	Strength            units.Strength
	StrengthUncertainty units.Strength // standard
	Sugar               abv.Sugars     // fermentable; NotSugar.Sugars finds it from an extract
	Extract             units.Concentration
	PH, PHUncertainty   float64 // the uncertainty is standard
	SO2                 additions.SO2
	Sorbate             units.Concentration // as sorbic acid
	YeastLimit          units.Strength      // where this yeast is said to give up
	Temperature         units.Temperature   // the warmest it will be kept
	Held                bool                // the hydrometer reading has held for days
}

// A Barrier is one thing that keeps yeast from the sugar: what it is here at its
// unfavourable end, what it would have to be, and who says so. Where it takes two
// quantities and one is enough, it is the one that lacks: Delle units and a
// strength, sorbic acid and molecular SO2. What is not known has a Value of 0.
type Barrier struct {
	// Key is "no_sugar", "alcohol", "alcohol_and_sugar", "sorbate_with_sulfite",
	// "sulfite" or "cold".
	Key             string
	Hold            Hold
	Value, Needed   float64
	Unit            string
	Name            string
	Because, Source string
}

// Verdict is the word on yeast with its reasons, the word on bacteria, and what
// neither rests on.
type Verdict struct {
	Outlook Outlook
	// StrengthLow is the strength that was judged, the one-sided 95 % end;
	// DelleUnits are of it and the low end of the sugar.
	StrengthLow units.Strength
	DelleUnits  float64
	// FreeSO2Low to FreeSO2High is the free SO2 there may be; MolecularSO2Low is
	// of its low end and the high end of the pH, 0 where the pH is not stated.
	FreeSO2Low, FreeSO2High, MolecularSO2Low units.Concentration
	Barriers                                 []Barrier
	Bacteria                                 Bacteria
	BacteriaBecause, BacteriaSource          string
	NotLookedAt                              []string
	Notes                                    []additions.Note
}

// Barrier is the barrier of this key; its zero value where there is none.
func (v Verdict) Barrier(key string) Barrier {
	for _, b := range v.Barriers {
		if b.Key == key {
			return b
		}
	}
	return Barrier{}
}

// oneSided is the 95 % point of the normal distribution: 1 time in 20 a value
// lies beyond that many standard uncertainties on the unfavourable side.
const oneSided = 1.645

// reaches says whether a value reaches a threshold. It is the one comparison of
// the verdict, and leaves room for what rounding does to a value that was
// brought to the threshold: 19.999999999999996 is 20.
func reaches(value, threshold float64) bool {
	return value >= threshold-1e-9*math.Abs(threshold)
}

// within is reaches for a threshold from above.
func within(value, threshold float64) bool { return reaches(-value, -threshold) }

// grade is how far a value goes.
func grade(value, weak, holds float64) Hold {
	switch {
	case reaches(value, holds):
		return Holds
	case reaches(value, weak):
		return Weak
	}
	return None
}

// judged are the unfavourable ends.
type judged struct {
	Wine
	strength  float64 // low, % vol
	delle     float64 // low
	pH        float64 // high; 0 not stated
	free      float64 // low, mg/L
	molecular float64 // low, mg/L
}

// leastPK is the pK of sulfurous acid that leaves the least molecular SO2: the
// usual one, with which the published needs were worked out, or that of the OIV's
// table for a weak wine at 20 C, where it is less.
func leastPK(s units.Strength) (float64, error) {
	const lastRow = 15 // % vol; the usual pK is less from 6 % vol on
	pK, u, err := additions.SO2PKInWine(min(s, lastRow), units.Celsius(20))
	return min(additions.UsualPK, pK-oneSided*u), err
}

// Judge says whether a wine with sugar in it is likely to stay still: each
// barrier for itself, and a word. The word is Still exactly when one barrier
// holds, Doubtful when the best of them is weak, else Ferments. Everything is
// taken at its unfavourable end: the strength less 1.645 standard uncertainties,
// the low end of the sugar for Delle units and its high end for dryness, the low
// end of the free SO2, the high end of the pH. More alcohol, sorbate or SO2, a
// lower pH or less uncertainty never make the word worse. It never says that a
// bottle is safe.
//
// Domain: strength 0 to 100 % vol, its uncertainty to 10; sugar 0 to 1000 g/L and
// not above the extract; pH 2.5 to 4.5 where stated, its uncertainty to 1; sorbic
// acid to 3 g/L; limit of the yeast to 30 % vol; -20 to 60 C; the SO2 as
// additions.SO2; the zero Wine, of which nothing is stated, is refused. Error:
// *units.RangeError.
func Judge(w Wine) (Verdict, error) {
	j, high, err := w.ends()
	if err != nil {
		return Verdict{}, err
	}
	v := Verdict{
		StrengthLow: units.Strength(j.strength), DelleUnits: j.delle,
		FreeSO2Low: units.Concentration(j.free) * units.MilligramPerLitre, FreeSO2High: high,
		MolecularSO2Low: units.Concentration(j.molecular) * units.MilligramPerLitre,
		Barriers:        []Barrier{j.noSugar(), j.alcohol(), j.alcoholAndSugar(), j.sorbateWithSulfite(), j.sulfite(), j.cold()},
		NotLookedAt:     notLookedAt(),
	}
	best := NotKnown
	for _, b := range v.Barriers {
		best = max(best, b.Hold)
	}
	v.Outlook = wordOf(best)
	v.Bacteria, v.BacteriaBecause, v.BacteriaSource = j.bacteria()
	v.Notes = j.notes()
	return v, nil
}

// notLookedAt is what neither verdict rests on.
func notLookedAt() []string {
	return []string{"pasteurising", "sterile filtering", "how much live yeast is left", "the closure and the bottle", "air in a half-full vessel", "whether the readings are right"}
}

// ends checks a wine and finds its unfavourable ends and the free SO2 at its high
// end.
func (w Wine) ends() (judged, units.Concentration, error) {
	if err := w.check(); err != nil {
		return judged{}, 0, err
	}
	low, high, err := w.SO2.FreeRange()
	if err != nil {
		return judged{}, 0, err
	}
	s := max(0, w.Strength-oneSided*w.StrengthUncertainty) // no wine has less than none
	j := judged{Wine: w, strength: float64(s), delle: delle(float64(s), float64(w.Sugar.Low)), free: low.In(units.MilligramPerLitre)}
	if w.PH > 0 {
		pK, err := leastPK(s)
		if err != nil {
			return judged{}, 0, err
		}
		j.pH = w.PH + oneSided*w.PHUncertainty
		j.molecular = j.free / (1 + molar.Pow10(j.pH-pK))
	}
	return j, high, nil
}

func (w Wine) check() error {
	if w == (Wine{}) {
		e := units.OutOfRange("", "strength", 0, 0, 100, "% vol", "")
		e.Cause = "nothing is stated of the wine: its strength and its sugar, or its extract, are the least"
		return e
	}
	err := check.First(check.Strength("strength", w.Strength),
		units.Check("uncertainty of the strength", float64(w.StrengthUncertainty), 0, 10, "% vol", check.Bound),
		w.Sugar.Check(w.Extract),
		units.Check("uncertainty of the pH", w.PHUncertainty, 0, 1, "", check.Bound),
		check.Level("sorbic acid", w.Sorbate, check.MostSorbicAcid),
		units.Check("limit of the yeast", float64(w.YeastLimit), 0, 30, "% vol", check.Bound))
	if err == nil && w.PH != 0 {
		err = units.Check("pH", w.PH, 2.5, 4.5, "", "must and wine")
	}
	if err == nil && w.Temperature.Stated() {
		err = units.Check("temperature", w.Temperature.Celsius(), -20, 60, "C", check.Bound)
	}
	return err
}

// notes are what must be said beside the barriers.
func (j judged) notes() []additions.Note {
	var notes []additions.Note
	if j.Sorbate > 0 {
		notes = additions.SorbateCautions(units.Concentration(j.free) * units.MilligramPerLitre)
	}
	if text := j.sugarNotStated(); text != "" {
		notes = append(notes, additions.Note{Text: text, Source: "as stated"})
	}
	if !within(float64(j.Sugar.High), dryEnough) {
		notes = append(notes, additions.Note{Text: "If it does ferment in a closed bottle, the bottle can burst. Keep doubtful wine under an airlock.", Source: string(additions.CommonPractice)})
	}
	return notes
}

// sugarNotStated says that a sugar of zero may have been left out: beside no extract,
// and beside more extract than a grape wine has without sugar.
func (j judged) sugarNotStated() string {
	if j.Sugar != (abv.Sugars{}) {
		return ""
	}
	if j.Extract == 0 {
		return "No sugar is stated: it counts as none. Measure it before you trust that."
	}
	if grapes, err := abv.NotSugarOf(""); err != nil || j.Extract <= grapes.High {
		return ""
	}
	return fmt.Sprintf("No sugar is stated beside %.4g g/L of extract: it counts as none. Find it from the extract, or measure it, before you trust that.", float64(j.Extract))
}

// delle are DU = S/10 + 4.5 A with S in g/L and A in % vol.
func delle(strength, sugar float64) float64 { return sugar/10 + 4.5*strength }

// DelleUnits are DU = S + 4.5 A with S, the fermentable sugar, in g/100 mL and A in
// % vol. Domain: strength 0 to 100, sugar 0 to 1000 g/L. Error: *units.RangeError.
// Source: Amerine & Kunkee, Vitis 5 (1965). Published thresholds run from 75 to 85.
func DelleUnits(s units.Strength, sugar units.Concentration) (float64, error) {
	if err := check.First(check.Strength("strength", s), check.Level("sugar", sugar, 1000)); err != nil {
		return 0, err
	}
	return delle(float64(s), float64(sugar)), nil
}
