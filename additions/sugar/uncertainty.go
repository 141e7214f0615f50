package sugar

import (
	"example.org/mutage/gravity"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// AddWithin is the gravity of a must after its sugar, with uncertainty and
// budget: the hydrometer's reading before (SG) and the temperature of the sample
// (C), the sugar (g) and the volume of the must (L). Without sugar it is that of
// the reading. Errors as Hydrometer.Correct, AddSugar and Propagate.
func AddWithin(h gravity.Hydrometer, reading, at, sugar, must uncertainty.Input) (uncertainty.Result, error) {
	return uncertainty.Propagate(func(x []float64) (float64, error) {
		before, err := h.Correct(gravity.SG(x[0]), units.Celsius(x[1]))
		if err != nil {
			return 0, err
		}
		after, _, err := Add(before, units.Volume(x[3]), units.Mass(x[2]))
		return float64(after), err
	}, []uncertainty.Input{reading, at, sugar, must}, nil)
}
