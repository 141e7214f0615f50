package handbook

import (
	"errors"
	"math"
	"testing"

	"example.org/mutage/units"
)

// A Domain is a function of one number, with numbers it takes and numbers it
// refuses.
type Domain struct {
	Name      string
	Of        func(x float64) (float64, error)
	Good, Bad []float64
}

// Domains tests that each gives a finite result on the one side, and on the other,
// as with what is no number, a *units.RangeError and zero.
func Domains(t *testing.T, domains []Domain) {
	t.Helper()
	for _, d := range domains {
		for _, in := range d.Good {
			if y, err := d.Of(in); err != nil || math.IsNaN(y) || math.IsInf(y, 0) {
				t.Errorf("%s at %v: %v, %v", d.Name, in, y, err)
			}
		}
		for _, in := range append(d.Bad, math.NaN(), math.Inf(1), math.Inf(-1)) {
			y, err := d.Of(in)
			var outside *units.RangeError
			if !errors.As(err, &outside) || y != 0 {
				t.Errorf("%s at %v: %v, %v; want zero and a *units.RangeError", d.Name, in, y, err)
			}
		}
	}
}

// Near says whether got is want to this part of it (of 1e-9 where want is less).
func Near(got, want, relative float64) bool {
	return math.Abs(got-want) <= relative*max(1e-9, math.Abs(want))
}

// Bench runs f and reports what it allocates.
func Bench(b *testing.B, f func() error) {
	b.Helper()
	b.ReportAllocs()
	for b.Loop() {
		if err := f(); err != nil {
			b.Fatal(err)
		}
	}
}
