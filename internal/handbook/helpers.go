package handbook

import "math"

// Near says whether got is want to a relative deviation.
func Near(got, want, relative float64) bool {
	return math.Abs(got-want) <= relative*max(1e-9, math.Abs(want))
}

// Must is x of a call that cannot fail in a test.
func Must[T any](x T, err error) T {
	if err != nil {
		panic(err)
	}
	return x
}
