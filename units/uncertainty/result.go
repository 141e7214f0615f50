package uncertainty

import (
	"cmp"
	"math"
	"slices"
	"sort"

	"example.org/mutage/units"
	"gonum.org/v1/gonum/stat/distuv"
)

// Result is a value with its standard uncertainty, from [Propagate] or
// [MonteCarlo]. A Result made of Value, Standard and DegreesOfFreedom alone
// works like one from Propagate.
type Result struct {
	Value, Standard float64
	// DegreesOfFreedom are the effective ones; 0 means infinitely many. A
	// result of MonteCarlo has 0: its sample contains them.
	DegreesOfFreedom float64
	// Low and High are the ends of the 95 % coverage interval, see [Result.Interval].
	Low, High float64
	// Budget has a line per input, in the order of the inputs. Propagate only.
	Budget []Contribution
	// Trials is how often MonteCarlo evaluated the function, 0 for Propagate.
	Trials int
	sample []float64 // sorted, of MonteCarlo
	flat   float64   // the part of Standard that the largest rectangular input has
}

// Ranked returns the budget from the largest contribution to the smallest.
func (r Result) Ranked() []Contribution {
	ranked := slices.Clone(r.Budget)
	slices.SortStableFunc(ranked, func(a, b Contribution) int { return cmp.Compare(b.Uncertainty, a.Uncertainty) })
	return ranked
}

// CoverageFactor returns k, by which a standard uncertainty is multiplied to
// cover the value with probability p, from Student's t (JCGM 100:2008, G.3);
// degrees of freedom that are no whole number are truncated (G.6.4). p is 0.01 to
// 0.9999, degrees of freedom are at least 1 or, for infinitely many, 0; a
// *[units.RangeError] otherwise.
func CoverageFactor(p, degrees float64) (float64, error) {
	if err := checkCoverage(p, 0); err != nil {
		return 0, err
	}
	if err := checkDegrees(degrees); err != nil {
		return 0, err
	}
	return student(degrees).Quantile((1 + p) / 2), nil
}

// standardized is the distribution of (measurand - value)/standard.
type standardized interface {
	distuv.Quantiler
	Survival(float64) float64
}

func student(degrees float64) standardized {
	// Beyond 1e8 gonum's t loses digits and the normal is within 1e-7.
	if degrees == 0 || degrees > 1e8 {
		return distuv.UnitNormal
	}
	whole := math.Floor(degrees * (1 + 1e-9)) // 4 that came out as 3.9999999999 is 4
	return distuv.StudentsT{Sigma: 1, Nu: whole}
}

// Expanded returns the expanded uncertainty U: the measurand lies within
// Value-U and Value+U with probability p. For a result of MonteCarlo it is
// half the length of the shortest interval. Domain and errors are those of
// [Result.Interval].
func (r Result) Expanded(p float64) (float64, error) {
	low, high, err := r.Interval(p)
	return (high - low) / 2, err
}

// Interval returns the ends of the coverage interval of probability p. From
// Propagate it is Value plus and minus U = k Standard, see [CoverageFactor]; from
// MonteCarlo it is the shortest interval, JCGM 101:2008, 5.3.4 and 7.7.4. p is
// 0.01 to 0.9999, and no more than leaves ten trials outside; a
// *[units.RangeError] otherwise.
func (r Result) Interval(p float64) (low, high float64, err error) {
	if err := r.check(); err != nil {
		return 0, 0, err
	}
	if err := checkCoverage(p, len(r.sample)); err != nil {
		return 0, 0, err
	}
	if r.sample == nil {
		u := r.Standard * student(r.DegreesOfFreedom).Quantile((1+p)/2)
		return r.Value - u, r.Value + u, nil
	}
	q := int(p*float64(len(r.sample)) + 0.5)
	best := 0
	for i := range len(r.sample) - q {
		if r.sample[i+q]-r.sample[i] < r.sample[best+q]-r.sample[best] {
			best = i
		}
	}
	return r.sample[best], r.sample[best+q], nil
}

// Quantile returns the value below which the measurand lies with probability p,
// 0.0001 to 0.9999 and leaving ten trials on either side; a
// *[units.RangeError] otherwise. Quantile(0.025) and Quantile(0.975) bound the
// probabilistically symmetric 95 % interval.
func (r Result) Quantile(p float64) (float64, error) {
	if err := r.check(); err != nil {
		return 0, err
	}
	tail := smallestTail(len(r.sample))
	if err := units.Check("probability", p, tail, 1-tail, "", ""); err != nil {
		return 0, err
	}
	if r.sample == nil {
		return r.Value + r.Standard*student(r.DegreesOfFreedom).Quantile(p), nil
	}
	return r.sample[rank(p, len(r.sample))], nil
}

// rank is the index of the p-quantile in a sorted sample, JCGM 101:2008, 7.5.1.
func rank(p float64, trials int) int {
	return int(math.Ceil(p*float64(trials))) - 1
}

// AtLeast returns the probability, 0 to 1, that the measurand is limit or more:
// from Student's t, or as the fraction of the trials of MonteCarlo, where 0 and
// 1 mean beyond what the trials can tell. 1 less it is the probability of
// staying below. The limit must be finite; a *[units.RangeError] otherwise.
func (r Result) AtLeast(limit float64) (float64, error) {
	if err := r.check(); err != nil {
		return 0, err
	}
	if err := units.Check("limit", limit, -largest, largest, "", ""); err != nil {
		return 0, err
	}
	switch {
	case r.sample != nil:
		return 1 - float64(sort.SearchFloat64s(r.sample, limit))/float64(len(r.sample)), nil
	case r.Standard > 0:
		return student(r.DegreesOfFreedom).Survival((limit - r.Value) / r.Standard), nil
	case r.Value >= limit:
		return 1, nil
	}
	return 0, nil
}

func (r Result) check() error {
	return Input{Value: r.Value, Standard: r.Standard, DegreesOfFreedom: r.DegreesOfFreedom}.check()
}

// checkCoverage accepts a probability that leaves something outside.
func checkCoverage(p float64, trials int) error {
	return units.Check("coverage probability", p, 0.01, 1-smallestTail(trials), "", "")
}

// smallestTail is the least probability a question may leave on one side: ten
// of the trials. It leaves room for 1-p to be rounded.
func smallestTail(trials int) float64 {
	tail := 0.0001
	if trials > 0 {
		tail = max(tail, 10/float64(trials))
	}
	return tail - 1e-12
}
