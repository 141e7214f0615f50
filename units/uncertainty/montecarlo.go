package uncertainty

import (
	"fmt"
	"math"
	"slices"

	"example.org/mutage/units"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
)

// Fewest and most trials that [MonteCarlo] accepts. JCGM 101:2008, 7.2, expects
// a million to settle a 95 % interval to one or two digits; every trial keeps
// eight bytes in the result.
const (
	MinTrials = 1_000
	MaxTrials = 10_000_000
)

// MonteCarlo draws the inputs trials times, evaluates f at each draw and returns
// the mean, the standard deviation and the shortest 95 % coverage interval of
// what came out, JCGM 101:2008, 7.6 and 7.7. The same seed gives the same result,
// however many processors there are. f is called trials times.
//
// Inputs are drawn as their [Distribution] says. A normal input with finite
// degrees of freedom v is drawn from Student's t, whose standard deviation is
// sqrt(v/(v-2)) Standard; v must be at least 3 (6.4.9.4: four readings). A
// rectangular one has bounds that are themselves rectangular, within
// 1/sqrt(2 v) of the half-width (6.4.3); it must not be correlated. Triangular
// and arcsine inputs take no finite degrees of freedom: JCGM 101 has no such
// distribution.
//
// Correlated normal inputs are drawn from the joint normal distribution; those
// with the same finite degrees of freedom from the joint t, as for quantities
// observed at the same time (between inputs of different degrees of freedom
// the correlation comes out a little weaker). Correlated inputs of other shapes
// go through a Gaussian copula: correlation is that of the normal scores, and
// the coefficient of the drawn values is closer to 0, by at most 0.024 where a
// rectangular or triangular input and by at most 0.053 where an arcsine input
// takes part.
//
// Errors are those of [Propagate]. A draw at which f fails is an error, not
// left out: an input close to the end of f's domain needs a distribution
// that stays inside.
func MonteCarlo(f func(x []float64) (float64, error), in []Input, correlation mat.Symmetric, trials int, seed uint64) (Result, error) {
	m, d, err := prepare(f, in, correlation, true)
	if err != nil {
		return Result{}, err
	}
	if err := units.Check("trials", float64(trials), MinTrials, MaxTrials, "", ""); err != nil {
		return Result{}, err
	}
	s, err := newSampler(in, d, seed)
	if err != nil {
		return Result{}, err
	}
	sample := make([]float64, trials)
	for k := range sample {
		s.draw(m.x)
		if sample[k], err = m.evaluate(); err != nil {
			return Result{}, fmt.Errorf("trial %d: %w", k+1, err)
		}
	}
	slices.Sort(sample)
	r := Result{Value: sample[0], Trials: trials, sample: sample}
	if sample[0] != sample[trials-1] {
		r.Value, r.Standard = stat.MeanStdDev(sample, nil)
	}
	if err := units.Check("standard uncertainty of the result", r.Standard, 0, math.MaxFloat64, "", ""); err != nil {
		return Result{}, err
	}
	r.Low, r.High, err = r.Interval(0.95)
	return r, err
}
