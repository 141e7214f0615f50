package stability

import (
	"fmt"
	"math"

	"example.org/mutage/abv"
	"example.org/mutage/additions"
	"example.org/mutage/units"
)

// A Remedy is one change that makes a wine stay still, judged again.
type Remedy struct {
	// Key is "strength", "sugar", "sorbate" and "so2" for what is put in, or
	// "measure_strength", "measure_sugar", "measure_free_so2" and "measure_ph" for
	// what is to be measured.
	Key string
	// Value is what is needed, in Unit: at least, or for a pH and an uncertainty
	// (limits, 19 times in 20) at most.
	Value float64
	Unit  string
	Text  string
	Wine  Wine // as changed
}

// mostSorbate in mg/L is the most that the OIV and the EU allow.
const mostSorbate = 200.0

// mostFortified in % vol is as far as a remedy goes with spirit.
const mostFortified = 25.0

// LeastStrength is the smallest strength in % vol, from the wine's own up to 25, at
// which a wine with all else as it is should stay still. Spirit dilutes the rest:
// for a pour that must be counted, see Least. ok is false where no strength does.
// Error as Judge.
func LeastStrength(w Wine) (s units.Strength, ok bool, err error) {
	x, ok, err := Least(func(x float64) (Wine, error) { return w.withStrength(x), nil }, float64(w.Strength), max(float64(w.Strength), mostFortified))
	return units.Strength(x), ok, err
}

func (w Wine) withStrength(x float64) Wine { w.Strength = units.Strength(x); return w }

// Least is the smallest x from lo to hi at which the wine should stay still, and
// ok says whether there is one. wine gives the wine at x: the litres of spirit in a
// pour, the grams of sugar. The interval is first looked at in 64 steps: a wine
// that is still between two of them alone is not found. What is returned was judged
// still. Errors: *units.RangeError for an interval that is none, what wine returns,
// and as Judge.
func Least(wine func(x float64) (Wine, error), lo, hi float64) (x float64, ok bool, err error) {
	const steps = 64
	if err := units.Check("lower end", lo, -math.MaxFloat64/4, hi, "", "the upper end"); err != nil {
		return 0, false, err
	}
	if err := units.Check("upper end", hi, lo, math.MaxFloat64/4, "", ""); err != nil {
		return 0, false, err
	}
	still := func(x float64) (bool, error) {
		w, err := wine(x)
		if err != nil {
			return false, err
		}
		word, err := outlook(w)
		return word == Still, err
	}
	before := lo
	for i := range steps + 1 {
		at := lo + (hi-lo)*float64(i)/steps
		ok, err := still(at)
		if err != nil {
			return 0, false, err
		}
		if !ok {
			before = at
			continue
		}
		for at-before > 1e-9*max(math.Abs(at), 1e-3) {
			middle := before + (at-before)/2
			if ok, err = still(middle); err != nil {
				return 0, false, err
			}
			if ok {
				at = middle
			} else {
				before = middle
			}
		}
		return at, true, nil
	}
	return 0, false, nil
}

// outlook is the word alone.
func outlook(w Wine) (Outlook, error) {
	j, _, err := w.ends()
	if err != nil {
		return Ferments, err
	}
	best := max(j.noSugar().Hold, j.alcohol().Hold, j.alcoholAndSugar().Hold, j.sorbateWithSulfite().Hold, j.cold().Hold)
	return wordOf(best), nil
}

// wordOf is the word of the best barrier.
func wordOf(best Hold) Outlook {
	switch best {
	case Holds:
		return Still
	case Weak:
		return Doubtful
	}
	return Ferments
}

// Remedies are the single changes that make a wine stay still, each the smallest
// of its kind and judged again; none for a wine that should stay still as it is, and
// none where no single change does: keep that cold under an airlock and drink it
// soon. To leave out what is known, such as the limit of the yeast, is never one.
// Error as Judge.
func Remedies(w Wine) ([]Remedy, error) {
	if word, err := outlook(w); err != nil || word == Still {
		return nil, err
	}
	var out []Remedy
	for _, c := range w.changes() {
		x, ok, err := Least(func(x float64) (Wine, error) { return c.with(x), nil }, c.from, c.to)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", c.key, err)
		}
		if !ok {
			continue
		}
		r, ok, err := c.remedy(x)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", c.key, err)
		}
		if ok {
			out = append(out, r)
		}
	}
	return out, nil
}

// A change is one quantity of a wine that goes up from what it is to its most. One
// that goes down is sought by its negative, and sign is -1.
type change struct {
	key, unit, text string // text has one verb, for the value
	places          int32
	sign            float64
	from, to        float64
	with            func(x float64) Wine
}

// remedy is the change to x, rounded for people to the safe side and judged again;
// ok is false where what is left of it by the rounding is nothing to ask for.
func (c change) remedy(x float64) (r Remedy, ok bool, err error) {
	tens := math.Pow(10, float64(c.places))
	up := math.Ceil(x*tens*(1-1e-9*math.Copysign(1, x))) / tens
	if up > c.to {
		up = x
	}
	w := c.with(up)
	word, err := outlook(w)
	value := c.sign * up
	if err != nil || word != Still || value <= 0 {
		return Remedy{}, false, err
	}
	shown := value
	if c.key == "measure_strength" {
		shown *= 1.96 // limits 19 times in 20
	}
	return Remedy{c.key, shown, c.unit, fmt.Sprintf(c.text, units.Round(shown, max(c.places, 2))), w}, true, nil
}

func (w Wine) changes() []change {
	var list []change
	add := func(key, unit, text string, places int32, sign, from, to float64, with func(x float64) Wine) {
		if from <= to {
			list = append(list, change{key, unit, text, places, sign, from, to, with})
		}
	}
	strength, low, likely, high := float64(w.Strength), float64(w.Sugar.Low), float64(w.Sugar.Likely), float64(w.Sugar.High)
	add("strength", "% vol", "spirit to at least %v %% vol, all else as it is", 1, 1, strength, mostFortified, w.withStrength)
	if w.StrengthUncertainty > 0 {
		add("measure_strength", "% vol", "measure the strength: the same, known to ±%v %% vol, should stay still", 2, -1, -float64(w.StrengthUncertainty), 0,
			func(x float64) Wine { c := w; c.StrengthUncertainty = units.Strength(-x); return c })
	}
	if high > low {
		add("measure_sugar", "g/L", "measure the sugar: with at least %v g/L it should stay still", 0, 1, max(low, dryEnough+1), high,
			func(x float64) Wine { return w.withSugar(x, x, x) })
		add("measure_sugar", "g/L", "measure the sugar: with at most %v g/L it should stay still", 0, -1, -dryEnough, -low,
			func(x float64) Wine { return w.withSugar(-x, -x, -x) })
	}
	add("sugar", "g/L", "add %v g/L of sugar, all else as it is", 0, 1, 0, min(mostAddedSugar, 1000-high),
		func(x float64) Wine { return w.withSugar(low+x, likely+x, high+x) })
	return append(list, w.doses()...)
}

// Bounds of what is sought: g/L, mg/L, and pH of fruit wines.
const (
	mostAddedSugar      = 200.0
	mostFree            = 200.0
	sourestPH, tamestPH = 3.0, 3.8
)

// doses are the changes with sorbate, SO2 and the pH.
func (w Wine) doses() []change {
	const mg = units.MilligramPerLitre
	var list []change
	if dose := w.Sorbate.In(mg); dose < mostSorbate {
		list = append(list, change{"sorbate", "mg/L", "sorbic acid to %v mg/L in it, all else as it is", 0, 1, dose, mostSorbate,
			func(x float64) Wine { c := w; c.Sorbate = units.Concentration(x) * mg; return c }})
	}
	low, high, err := w.SO2.FreeRange()
	free := func(x float64) Wine {
		c := w
		c.SO2 = additions.SO2{Free: units.Concentration(x) * mg, FreeMeasured: true, FreeLimit: w.SO2.FreeLimit}
		return c
	}
	if err == nil && !w.SO2.FreeMeasured && high > 0 {
		list = append(list, change{"measure_free_so2", "mg/L", "measure the free SO2: with at least %v mg/L it should stay still", 0, 1, low.In(mg), high.In(mg), free})
	}
	if high.In(mg) < mostFree {
		list = append(list, change{"so2", "mg/L", "sulfite to a measured free SO2 of at least %v mg/L, all else as it is", 0, 1, high.In(mg), mostFree, free})
	}
	from, to := -tamestPH, -sourestPH
	if w.PH > 0 {
		from, to = -min(4.5, w.PH+oneSided*w.PHUncertainty), -max(2.5, w.PH-oneSided*w.PHUncertainty)
	}
	if w.PH == 0 || w.PHUncertainty > 0 {
		list = append(list, change{"measure_ph", "", "measure the pH: at %v or less it should stay still", 2, -1, from, to,
			func(x float64) Wine { c := w; c.PH, c.PHUncertainty = -x, 0; return c }})
	}
	return list
}

// withSugar is the wine with this sugar; the extract is no longer that of before.
func (w Wine) withSugar(low, likely, high float64) Wine {
	w.Sugar = abv.Sugars{Low: units.Concentration(low), Likely: units.Concentration(likely), High: units.Concentration(high)}
	w.Extract = 0
	return w
}
