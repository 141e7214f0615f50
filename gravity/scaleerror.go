package gravity

import (
	"fmt"
	"math"

	"example.org/mutage/internal/check"
	"example.org/mutage/internal/density"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// TestReading is a hydrometer tried in a liquid of known gravity at the hydrometer's
// own calibration temperature: what it showed and what it should have shown.
// Water should show 1.000 (on a 20/4 scale 0.9982), and 10 g of sugar with 90 g
// of water what Brix(10).SG gives.
type TestReading struct{ Shown, True SG }

// Limits beyond which a hydrometer is broken or a test was misread. A verified
// hydrometer stays within a division; a slipped paper scale within a few.
const (
	largestOffset = 0.02
	largestSlope  = 0.10
)

// WithTests corrects the scale by its tests: one test shifts it, two give a
// linear correction, more the least-squares line through them. Domain: SG 0.9
// to 1.4, at most 0.02 off at 1.000 and 10 % in slope; the readings of two or
// more tests at least 0.01 apart.
func (h Hydrometer) WithTests(first TestReading, more ...TestReading) Hydrometer {
	shown, errs := make([]float64, 0, 1+len(more)), make([]float64, 0, 1+len(more))
	for _, test := range append([]TestReading{first}, more...) {
		h.refuse(units.Check("test reading shown", float64(test.Shown), 0.9, 1.4, "", ""))
		h.refuse(units.Check("true gravity of a test reading", float64(test.True), 0.9, 1.4, "", ""))
		shown, errs = append(shown, float64(test.Shown)-1), append(errs, float64(test.True-test.Shown))
	}
	if h.err != nil {
		return h
	}
	h.offset, h.slope = errs[0], 0
	if len(more) > 0 {
		lo, hi := shown[0], shown[0]
		for _, x := range shown {
			lo, hi = min(lo, x), max(hi, x)
		}
		h.refuse(units.Check("distance between test readings", hi-lo, 0.01, math.Inf(1), "", "one test is given once"))
		if h.err != nil {
			return h
		}
		var err error
		h.offset, h.slope, err = uncertainty.LeastSquares(shown, errs)
		h.refuse(err)
	}
	h.refuse(checkScaleError(h.offset, h.slope))
	return h
}

func checkScaleError(offset, slope float64) error {
	return check.First(units.Check("scale error at 1.000", offset, -largestOffset, largestOffset, "", "a broken hydrometer or a misread test"),
		units.Check("scale error per unit of gravity", slope, -largestSlope, largestSlope, "", "a broken hydrometer or a misread test"))
}

// String says how the hydrometer is read.
func (h Hydrometer) String() string {
	if h.err != nil {
		return "hydrometer: " + h.err.Error()
	}
	return fmt.Sprintf("hydrometer made for %.4g C, glass %.3g per C, scale error %+.4f%+.4f(SG - 1), meniscus %+.4f",
		20+h.calibration, density.Glass+h.glass, h.offset, h.slope, h.rise)
}
