// Package solve finds a root inside a bracket: Newton steps while they stay
// inside, halving where they do not. It knows nothing of what it solves and
// does not allocate.
package solve

import "errors"

// ErrNoRoot says that the function does not change sign between the ends of
// the bracket, or is not a number there.
var ErrNoRoot = errors.New("no root in the bracket")

// Rising returns x in [lo, hi] with f(x) = 0 for a function that rises through
// zero there; f returns its value and its slope. It ends with a Newton step of at
// most tol, which leaves an error of its square, or with a halving of a
// millionth of tol. guess may be any point of the bracket.
//
// Rounding may put the root of a function that is zero at an end just outside:
// where a Newton step from the end leads out of the bracket by at most ends, the
// end is the root. With ends zero the function must change sign.
func Rising(f func(x float64) (y, slope float64), guess, lo, hi, tol, ends float64) (float64, error) {
	if !(guess >= lo && guess <= hi) {
		guess = lo + (hi-lo)/2
	}
	x, below, above := guess, false, false
	for range 200 {
		y, slope := f(x)
		switch {
		case y < 0:
			lo, below = x, true
		case y > 0:
			hi, above = x, true
		case y == 0:
			return x, nil
		default:
			return 0, ErrNoRoot
		}
		next, near := x-y/slope, tol
		if !(next > lo && next < hi) { // also NaN
			next, near = lo+(hi-lo)/2, 1e-6*tol
			// The end itself may be the root, or the function may not cross.
			if y < 0 && !above {
				if v, slope := f(hi); !(v >= 0) {
					return end(hi, -v/slope, ends)
				}
				above = true
			}
			if y > 0 && !below {
				if v, slope := f(lo); !(v <= 0) {
					return end(lo, v/slope, ends)
				}
				below = true
			}
		}
		step := next - x
		x = next
		if step <= near && step >= -near || hi-lo <= 1e-6*tol {
			return x, nil
		}
	}
	return x, nil
}

// end is the end of the bracket where the root lies beyond it by no more than ends.
func end(x, beyond, ends float64) (float64, error) {
	if beyond >= 0 && beyond <= ends {
		return x, nil
	}
	return 0, ErrNoRoot
}
