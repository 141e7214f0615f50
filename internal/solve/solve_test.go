package solve

import (
	"errors"
	"math"
	"testing"
)

func TestRising(t *testing.T) {
	for _, c := range []struct {
		name        string
		f           func(x float64) (float64, float64)
		guess, a, b float64
		want        float64
	}{
		{"cube root", func(x float64) (float64, float64) { return x*x*x - 2, 3 * x * x }, 5, 0, 10, math.Cbrt(2)},
		{"flat start", func(x float64) (float64, float64) { return x*x*x - 2, 3 * x * x }, 0, 0, 10, math.Cbrt(2)},
		{"steep", func(x float64) (float64, float64) { return math.Exp(x) - 1e6, math.Exp(x) }, 0, -1, 100, math.Log(1e6)},
		{"root at the upper end", func(x float64) (float64, float64) { return x - 3, 1 }, 1, 0, 3, 3},
		{"root at the lower end", func(x float64) (float64, float64) { return x, 1 }, 1, 0, 3, 0},
		{"guess outside", func(x float64) (float64, float64) { return x - 1, 1 }, 99, 0, 3, 1},
		{"no usable slope", func(x float64) (float64, float64) { return math.Copysign(1, x-0.7), 0 }, 0.1, 0, 3, 0.7},
	} {
		got, err := Rising(c.f, c.guess, c.a, c.b, 1e-12)
		if err != nil || math.Abs(got-c.want) > 1e-11 {
			t.Errorf("%s: %v, %v; want %v", c.name, got, err, c.want)
		}
	}
}

func TestRisingRefuses(t *testing.T) {
	for name, f := range map[string]func(x float64) (float64, float64){
		"always above": func(x float64) (float64, float64) { return x*x + 1, 2 * x },
		"always below": func(x float64) (float64, float64) { return x - 50, 1 },
		"not a number": func(x float64) (float64, float64) { return math.NaN(), 1 },
	} {
		if x, err := Rising(f, 1, 0, 3, 1e-12); !errors.Is(err, ErrNoRoot) {
			t.Errorf("%s: %v, %v", name, x, err)
		}
	}
}
