package gravity

import (
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// Standard uncertainty of the models behind the corrections, in SG and Brix.
const (
	hydrometerModel    = 0.00005 // 0.011 Brix, root mean square against the cane-sugar table
	refractometerModel = 0.01    // two official tables part by up to 0.02 below 50 % mass
)

// CorrectWithin is Correct with its uncertainty: reading in SG and the sample's
// temperature in C, each with its standard uncertainty, give the gravity at 20
// C with its own and the budget. Reading a spindle to half of its smallest
// division is common practice, no source: a RectangularInput of that half-width.
// Domain and errors as Correct.
func (h Hydrometer) CorrectWithin(reading, at uncertainty.Input) (uncertainty.Result, error) {
	return within(hydrometerModel, reading, at, func(r, t float64) (float64, error) {
		g, err := h.Correct(SG(r), units.Temperature(t))
		return float64(g), err
	})
}

// CorrectWithin is Correct with its uncertainty: reading in Brix and the
// sample's temperature in C. A cell of 0.2 Brix is read to half of it at best
// (common practice, no source). Domain and errors as Correct.
func (r Refractometer) CorrectWithin(reading, at uncertainty.Input) (uncertainty.Result, error) {
	return within(refractometerModel, reading, at, func(b, t float64) (float64, error) {
		corrected, err := r.Correct(Brix(b), units.Temperature(t))
		return float64(corrected), err
	})
}

func within(model float64, reading, at uncertainty.Input, correct func(reading, at float64) (float64, error)) (uncertainty.Result, error) {
	return uncertainty.Propagate(func(x []float64) (float64, error) {
		y, err := correct(x[0], x[1])
		return y + x[2], err
	}, []uncertainty.Input{reading, at, {Name: "model", Standard: model}}, nil)
}
