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
// C with its own and the budget. Reading a hydrometer to half of its smallest
// division is common practice, no source: a RectangularInput of that half-width.
// Domain and errors as Correct.
func (h Hydrometer) CorrectWithin(reading, at uncertainty.Input) (uncertainty.Result, error) {
	return within(hydrometerModel, func(x []float64) (float64, error) {
		g, err := h.Correct(SG(x[0]), units.Celsius(x[1]))
		return float64(g), err
	}, reading, at)
}

// CorrectWithin is Correct with its uncertainty: reading in Brix and the
// sample's temperature in C. A cell of 0.2 Brix is read to half of it at best
// (common practice, no source). Domain and errors as Correct.
func (r Refractometer) CorrectWithin(reading, at uncertainty.Input) (uncertainty.Result, error) {
	return within(refractometerModel, func(x []float64) (float64, error) {
		corrected, err := r.Correct(Brix(x[0]), units.Celsius(x[1]))
		return float64(corrected), err
	}, reading, at)
}

// CorrectInWithin is CorrectIn with its uncertainty: the strength in % vol, the
// reading in SG and the sample's temperature in C. The model counts as for
// CorrectWithin. Domain and errors as CorrectIn.
func (h Hydrometer) CorrectInWithin(strength, reading, at uncertainty.Input) (uncertainty.Result, error) {
	return within(hydrometerModel, func(x []float64) (float64, error) {
		g, err := h.CorrectIn(units.Strength(x[2]), SG(x[0]), units.Celsius(x[1]))
		return float64(g), err
	}, reading, at, strength)
}

// within propagates the inputs through correct, and the model's own uncertainty.
func within(model float64, correct func(x []float64) (float64, error), in ...uncertainty.Input) (uncertainty.Result, error) {
	last := len(in)
	return uncertainty.Propagate(func(x []float64) (float64, error) {
		y, err := correct(x[:last])
		return y + x[last], err
	}, append(in, uncertainty.Input{Name: "model", Standard: model}), nil)
}
