package acid

import (
	"fmt"
	"math"

	"example.org/mutage/internal/check"
	"example.org/mutage/internal/molar"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// A Measurement is what the pH meter and the burette gave, and which acids the
// wine has; only their proportions count. A cherry wine is mostly malic.
type Measurement struct {
	PH       float64
	TA       units.Concentration // as tartaric acid
	EndPoint float64             // pH to which the TA was molar.Titrated; 0 is 8.2
	Strength units.Strength
	Profile  Acids

	// Standard uncertainties; 0 leaves them out.
	StandardPH float64
	StandardTA units.Concentration
}

// Fit is the liquid that has this pH and this TA: the acids in the stated
// proportions, as many as the TA asks, and potassium for the rest. Domain: pH
// 2 to 5, TA above 0 to 100 g/L, strength 0 to 22 % vol. Error:
// *units.RangeError, also where the pH is below that of the acids alone: the
// proportions or a reading are wrong.
func Fit(m Measurement) (Buffer, error) { return m.fit(nil) }

// fit changes the constants first, if asked.
func (m Measurement) fit(change func(*constants)) (Buffer, error) {
	if m.EndPoint == 0 {
		m.EndPoint = 8.2
	}
	b, err := NewBuffer(m.Profile, 0, m.Strength)
	if err := check.First(err, units.Check("pH", m.PH, 2, 5, "", "must and wine"),
		units.Check("TA", float64(m.TA), 0.1, 100, "g/L", check.Bound),
		units.Check("end point of the titration", m.EndPoint, 7, 8.5, "pH", "7 (OIV) to 8.2")); err != nil {
		return Buffer{}, err
	}
	if change != nil {
		change(&b.k)
	}
	// Scale the acids until the alkali between both pHs is the TA. The scale
	// works through the ionic strength only a little on itself.
	want := float64(m.TA) / molar.TartaricEquivalent
	free := molar.Pow10(-m.PH) // of the TA, the hydrogen ions that no scale changes
	for range 60 {
		acid := b.alkaliAt(m.EndPoint) - b.alkaliAt(m.PH) - free
		scale := (want - free) / acid
		if err := check.First(units.Check("sum of the acids", acid, 1e-9, 1e9, "mol/L", "at least one acid"),
			units.Check("TA over the sum of the acids", scale, 1e-9, 1e9, "", "TA and pH do not belong together")); err != nil {
			return Buffer{}, err
		}
		for i := range b.moles {
			b.moles[i] *= scale
		}
		if math.Abs(scale-1) < 1e-10 {
			break
		}
	}
	if b.alkali = b.alkaliAt(m.PH); b.alkali < 0 {
		alone := b
		alone.alkali = 0
		lowest, _, err := alone.solve(m.PH)
		return Buffer{}, check.First(err, units.OutOfRange("", "pH at this TA", m.PH, lowest, 5, "", "the stated acids without any potassium"))
	}
	if _, _, err := b.solve(m.PH); err != nil {
		return Buffer{}, err
	}
	return b, nil
}

// A Prediction is a pH after an addition, its standard uncertainty, and what
// each pK and reading brings to that.
type Prediction struct {
	PH       float64
	Standard float64
	Buffer   Buffer
	Budget   []uncertainty.Contribution
}

// Predict is the pH after a change to a measured wine:
//
//	p, err := additions.Predict(m, func(b additions.Buffer) (additions.Buffer, error) {
//		return b.With(additions.Tartaric, 1.5)
//	})
//
// The wine is fitted first, so that an error of the constants shows only in
// the step. The uncertainty is that of the pH meter, of the titration and of each
// pK (the spread of printed values, and of the shift with alcohol), propagated
// (JCGM 100:2008) with the wine refitted each time. The temperature is that of
// the constants, 20 to 25 C; crystals are left to LessTartar. change is called
// many times. Domain: that of Fit; standard uncertainties of the pH to 0.5, of
// the TA to half of it. Errors: those of Fit, of change and of
// uncertainty.Propagate.
func Predict(m Measurement, change func(Buffer) (Buffer, error)) (Prediction, error) {
	if err := check.First(units.Check("standard uncertainty of the pH", m.StandardPH, 0, 0.5, "", check.Bound),
		units.Check("standard uncertainty of the TA", float64(m.StandardTA), 0, 0.5*max(0, float64(m.TA)), "g/L", check.Bound)); err != nil {
		return Prediction{}, err
	}
	after := func(m Measurement, with func(*constants)) (Buffer, float64, error) {
		b, err := m.fit(with)
		if err != nil {
			return Buffer{}, 0, err
		}
		if b, err = change(b); err != nil {
			return Buffer{}, 0, err
		}
		if b.k = constantsAt(b.strength); with != nil { // change may have set new ones
			with(&b.k)
		}
		pH, err := b.PH()
		return b, pH, err
	}
	b, pH, err := after(m, nil)
	if err != nil {
		return Prediction{}, err
	}
	in := []uncertainty.Input{
		{Name: "pH", Value: m.PH, Standard: m.StandardPH},
		{Name: "titratable acidity", Value: float64(m.TA), Standard: float64(m.StandardTA)},
	}
	type step struct{ acid, proton int }
	var steps []step
	for i := range pkTable {
		for j, p := range pkTable[i] {
			if b.moles[i] > 0 && p.value > 0 {
				steps = append(steps, step{i, j})
				in = append(in, uncertainty.Input{Name: fmt.Sprintf("pK %d of %s", j+1, wineAcids[i].Name), Standard: p.doubt(b.strength)})
			}
		}
	}
	r, err := uncertainty.Propagate(func(x []float64) (float64, error) {
		moved := m
		moved.PH, moved.TA = x[0], units.Concentration(x[1])
		_, pH, err := after(moved, func(k *constants) {
			for n, s := range steps {
				k[s.acid][s.proton] *= molar.Pow10(-x[2+n])
			}
		})
		return pH, err
	}, in, nil)
	if err != nil {
		return Prediction{}, err
	}
	return Prediction{pH, r.Standard, b, r.Budget}, nil
}
