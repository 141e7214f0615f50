package uncertainty

import (
	"math"

	"example.org/mutage/units"
)

// UpperAcceptanceLimit returns the largest value that, obtained with the
// uncertainty of r, still conforms to an upper tolerance limit with the given
// confidence: the limit less a guard band (JCGM 106:2012, 8.3). A legal
// maximum is kept by staying at or below it. The guard band is what lies
// between Value and the quantile of r at that confidence, 0.5 to 0.9999; a
// *[units.RangeError] otherwise.
func (r Result) UpperAcceptanceLimit(limit, confidence float64) (float64, error) {
	return r.guard(limit, confidence, confidence)
}

// LowerAcceptanceLimit returns the smallest value that still conforms to a lower
// tolerance limit with the given confidence, as [Result.UpperAcceptanceLimit]
// does for an upper one: same domain and error.
func (r Result) LowerAcceptanceLimit(limit, confidence float64) (float64, error) {
	return r.guard(limit, confidence, 1-confidence)
}

func (r Result) guard(limit, confidence, p float64) (float64, error) {
	if err := units.Check("limit", limit, -largest, largest, "", ""); err != nil {
		return 0, err
	}
	if err := units.Check("confidence", confidence, 0.5, 1-smallestTail(len(r.sample)), "", ""); err != nil {
		return 0, err
	}
	q, err := r.Quantile(p)
	if err != nil {
		return 0, err
	}
	return limit - (q - r.Value), nil
}

// Comparison is the outcome of [Compare].
type Comparison struct {
	// Tolerance is half a unit of the last significant digit of the standard
	// uncertainty (JCGM 101:2008, 7.9.2).
	Tolerance float64
	// Low and High are the distances between the ends of the two 95 % intervals.
	Low, High float64
	// Adequate is whether both are within Tolerance: the propagation serves.
	Adequate bool
	// Noise is the standard error of the Monte Carlo ends. Until it is below a
	// fifth of Tolerance (8.2) Adequate may be chance: take more trials.
	Noise float64
}

// Compare says whether propagation was adequate for this function and these
// inputs, by JCGM 101:2008, 8.1: its 95 % interval agrees with that of Monte
// Carlo to the given number of significant digits, 1 to 4, usually 2, of the
// standard uncertainty. The Monte Carlo interval taken is the probabilistically
// symmetric one, whose ends are steadier than those of the shortest. Results in
// the wrong order or digits out of range give a *[units.RangeError].
func Compare(propagated, monteCarlo Result, digits int) (Comparison, error) {
	if err := units.Check("trials of the propagated result", float64(propagated.Trials), 0, 0, "", ""); err != nil {
		return Comparison{}, err
	}
	n := len(monteCarlo.sample)
	if err := units.Check("trials of the Monte Carlo result", float64(n), MinTrials, MaxTrials, "", ""); err != nil {
		return Comparison{}, err
	}
	if err := units.Check("significant digits", float64(digits), 1, 4, "", ""); err != nil {
		return Comparison{}, err
	}
	low, high, err := propagated.Interval(0.95)
	if err != nil {
		return Comparison{}, err
	}
	y := monteCarlo.sample
	below, above := rank(0.025, n), rank(0.975, n)
	c := Comparison{Low: math.Abs(low - y[below]), High: math.Abs(high - y[above])}
	if u := significant(monteCarlo.Standard, digits); !u.IsZero() {
		c.Tolerance = math.Pow10(int(u.Exponent())) / 2
	}
	c.Adequate = c.Low <= c.Tolerance && c.High <= c.Tolerance
	// The rank of a quantile is uncertain by the binomial standard deviation.
	step := int(math.Ceil(math.Sqrt(float64(n) * 0.025 * 0.975)))
	c.Noise = max(y[below+step]-y[below-step], y[above+step]-y[above-step]) / 2
	return c, nil
}
