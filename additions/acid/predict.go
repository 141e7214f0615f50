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
func Fit(m Measurement) (Buffer, error) {
	b, _, err := m.fit()
	return b, err
}

// fit gives the activities beside the liquid.
func (m *Measurement) fit() (Buffer, activities, error) {
	g := activities{1.2, 1.2}
	b, err := NewBuffer(m.Profile, 0, m.Strength)
	if err = check.First(err, m.titrate(&b, &g, settled)); err != nil {
		return Buffer{}, g, err
	}
	if _, _, err = b.solve(m.PH, g.measured, settled); err != nil {
		return Buffer{}, g, err
	}
	return b, g, nil
}

// activities are the g of ions where the pH was measured and at the end point.
type activities struct{ measured, end float64 }

// titrate scales the acids of b until the alkali between both pHs is the TA, and
// gives it the alkali of the first. g is renewed at every step, as the ionic
// strength follows the scale only a little.
func (m *Measurement) titrate(b *Buffer, g *activities, to float64) error {
	end := m.EndPoint
	if end == 0 {
		end = 8.2
	}
	if err := check.First(units.Check("pH", m.PH, 2, 5, "", "must and wine"),
		units.Check("TA", float64(m.TA), 0.1, 100, "g/L", check.Bound),
		units.Check("end point of the titration", end, 7, 8.5, "pH", "7 (OIV) to 8.2")); err != nil {
		return err
	}
	want := float64(m.TA) / molar.TartaricEquivalent
	free := molar.Pow10(-m.PH) // of the TA, the hydrogen ions that no scale changes
	a, z := molar.Pow10(m.PH), molar.Pow10(end)
	moved, first, second := math.Inf(1), rest{}, rest{}
	for steps := 0; moved > to; steps++ {
		if steps == mostSteps {
			return fmt.Errorf("the acids of pH %v and TA %v g/L do not settle", m.PH, float64(m.TA))
		}
		at, over := b.ionsAt(a, g.measured), b.ionsAt(z, g.end)
		acid := over.alkali - at.alkali - free
		scale := (want - free) / acid
		if err := check.First(units.Check("sum of the acids", acid, 1e-9, 1e9, "mol/L", "at least one acid"),
			units.Check("TA over the sum of the acids", scale, 1e-9, 1e9, "", "TA and pH do not belong together")); err != nil {
			return err
		}
		for i := range b.moles {
			b.moles[i] *= scale
		}
		b.alkali = at.alkali
		next := activities{first.next(g.measured, activity(scale*at.squares, scale*at.alkali)), second.next(g.end, activity(scale*over.squares, scale*over.alkali))}
		moved = math.Abs(scale-1) + math.Abs(next.measured-g.measured) + math.Abs(next.end-g.end)
		*g = next
	}
	if b.alkali < 0 {
		alone := *b
		alone.alkali = 0
		lowest, _, err := alone.solve(m.PH, g.measured, settled)
		return check.First(err, units.OutOfRange("", "pH at this TA", m.PH, lowest, 5, "", "the stated acids without any potassium"))
	}
	return nil
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
	fitted, g, err := m.fit()
	if err != nil {
		return Prediction{}, err
	}
	b, err := fitted.changed(change, &fitted)
	if err != nil {
		return Prediction{}, err
	}
	pH, gThere, err := b.solve(3.4, 0, settled)
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
				in = append(in, uncertainty.Input{Name: fmt.Sprintf("pK %d of %s", j+1, wineAcids[i].Name), Standard: p.uncertainty(b.strength)})
			}
		}
	}
	// Each liquid differs little from the one fitted: it goes on from there.
	r, err := uncertainty.Propagate(func(x []float64) (float64, error) {
		moved, near, wine := m, g, fitted
		moved.PH, moved.TA = x[0], units.Concentration(x[1])
		shift := func(k *constants) {
			for n, s := range steps {
				if up := x[2+n]; up != 0 {
					k[s.acid][s.proton] *= molar.Pow10(-up)
				}
			}
		}
		shift(&wine.k)
		if err := moved.titrate(&wine, &near, compared); err != nil {
			return 0, err
		}
		wine, err := wine.changed(change, &b)
		if err != nil {
			return 0, err
		}
		shift(&wine.k)
		there, _, err := wine.solve(pH, gThere, compared)
		return there, err
	}, in, nil)
	if err != nil {
		return Prediction{}, err
	}
	return Prediction{pH, r.Standard, b, r.Budget}, nil
}

// changed is the liquid after a change, with the constants of the table at its
// strength: those of known, where it is that one's.
func (b Buffer) changed(change func(Buffer) (Buffer, error), known *Buffer) (Buffer, error) {
	b, err := change(b)
	if b.strength == known.strength {
		b.k = known.k
	} else {
		b.k = constantsAt(b.strength)
	}
	return b, err
}
