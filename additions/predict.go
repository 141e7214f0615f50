package additions

import (
	"math"

	"example.org/mutage/units"
)

// A Measurement is what the pH meter and the burette gave, and which acids the
// wine has; only their proportions count. A cherry wine is mostly malic.
type Measurement struct {
	PH       float64
	TA       units.Concentration // as tartaric acid
	EndPoint float64             // pH to which the TA was titrated; 0 is 8.2
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
	if err := first(err, units.Check("pH", m.PH, 2, 5, "", "must and wine"),
		units.Check("TA", float64(m.TA), 0.1, 100, "g/L", bound),
		units.Check("end point of the titration", m.EndPoint, 7, 8.5, "pH", "7 (OIV) to 8.2")); err != nil {
		return Buffer{}, err
	}
	if change != nil {
		change(&b.k)
	}
	// Scale the acids until the alkali between both pHs is the TA. The scale
	// works through the ionic strength only a little on itself.
	want := float64(m.TA) / tartaricEquivalent
	free := pow10(-m.PH) // of the TA, the hydrogen ions that no scale changes
	for range 60 {
		acid := b.alkaliAt(m.EndPoint) - b.alkaliAt(m.PH) - free
		scale := (want - free) / acid
		if err := first(units.Check("sum of the acids", acid, 1e-9, 1e9, "mol/L", "at least one acid"),
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
		return Buffer{}, first(err, &units.RangeError{Quantity: "pH at this TA", Value: m.PH, Min: lowest, Max: 5, Source: "the stated acids without any potassium"})
	}
	if _, _, err := b.solve(m.PH); err != nil {
		return Buffer{}, err
	}
	return b, nil
}

// A Prediction is a pH after an addition with its standard uncertainty.
type Prediction struct {
	PH       float64
	Standard float64
	Buffer   Buffer
}

// Predict is the pH after a change to a measured wine:
//
//	p, err := additions.Predict(m, func(b additions.Buffer) (additions.Buffer, error) {
//		return b.With(additions.Tartaric, 1.5)
//	})
//
// The wine is fitted first, so that an error of the constants shows only in
// the step. The standard uncertainty is the root of the sum of the squares of
// what each pK's own uncertainty (the spread of printed values, and of the
// shift with alcohol), the pH meter's and the titration's do to the result,
// refitted each time. The temperature is that of the constants, 20 to 25 C;
// crystals are left to LessTartar. change is called many times.
// Errors: those of Fit and of change.
func Predict(m Measurement, change func(Buffer) (Buffer, error)) (Prediction, error) {
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
	sum := 0.0
	add := func(m Measurement, with func(*constants)) error {
		_, moved, err := after(m, with)
		sum += (moved - pH) * (moved - pH)
		return err
	}
	for i := range pkTable {
		if b.moles[i] == 0 {
			continue
		}
		for j, p := range pkTable[i] {
			if p.value > 0 {
				// Downward: a lower pK never leaves the fit without potassium.
				err = first(err, add(m, func(k *constants) { k[i][j] *= pow10(-p.doubt(b.strength)) }))
			}
		}
	}
	high, more := m, m
	high.PH, more.TA = m.PH+m.StandardPH, m.TA+m.StandardTA
	if err := first(err, units.Check("standard uncertainty of the pH", m.StandardPH, 0, 0.5, "", bound),
		units.Check("standard uncertainty of the TA", float64(m.StandardTA), 0, 0.5*float64(m.TA), "g/L", bound),
		add(high, nil), add(more, nil)); err != nil {
		return Prediction{}, err
	}
	return Prediction{pH, math.Sqrt(sum), b}, nil
}
