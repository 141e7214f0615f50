package uncertainty

import "math"

// Coverage returns the factor by which Standard is multiplied for the 95 %
// interval of a result of which one rectangular input makes the larger part: from
// 1.96, where none does, down to 1.645, where there is nothing else. It is that of
// the sum of that rectangle and a normal distribution of the rest (EA-4/02 M:2013,
// appendix S9, from memory, has 1.65 for the rectangle alone). A second rectangle
// counts as normal, which covers 94.4 to 95.3 %. Where degrees of freedom are finite,
// and for a result of [MonteCarlo], it is half of the interval over Standard.
// [Result.Interval] is that of JCGM 100, which knows no shapes.
func (r Result) Coverage() float64 {
	if r.flat == 0 || r.DegreesOfFreedom > 0 || r.sample != nil {
		low, high := r.Low, r.High
		if low == high { // a result made by hand
			low, high, _ = r.Interval(0.95)
		}
		if r.Standard > 0 && high > low {
			return (high - low) / 2 / r.Standard
		}
		return limit95
	}
	lo, hi := 1.6, 2.0 // of 0.95 times the root of 3 and of 1.96
	for range 40 {
		k := (lo + hi) / 2
		if withinFlat(k, r.flat) < 0.95 {
			lo = k
		} else {
			hi = k
		}
	}
	return hi
}

// withinFlat is the share within k standard deviations of a sum of a rectangle,
// whose own is so much of that of the sum, and a normal distribution: the
// convolution of the two, integrated.
func withinFlat(k, flat float64) float64 {
	half, rest := math.Sqrt(3)*flat, math.Sqrt(max(0, 1-flat*flat))
	if rest < 1e-6 {
		return min(1, k/half)
	}
	// area is the integral of the normal distribution function up to z.
	area := func(z float64) float64 {
		return z*math.Erfc(-z/math.Sqrt2)/2 + math.Exp(-z*z/2)/math.Sqrt(2*math.Pi)
	}
	return rest/half*(area((k+half)/rest)-area((k-half)/rest)) - 1
}
