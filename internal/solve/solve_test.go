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
		got, err := Rising(c.f, c.guess, c.a, c.b, 1e-12, 0)
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
		if x, err := Rising(f, 1, 0, 3, 1e-12, 0); !errors.Is(err, ErrNoRoot) {
			t.Errorf("%s: %v, %v", name, x, err)
		}
	}
}

// Rounding that puts the root outside by no more than ends gives the end.
func TestARootJustOutsideIsTheEnd(t *testing.T) {
	line := func(root float64) func(x float64) (float64, float64) {
		return func(x float64) (float64, float64) { return 7 * (x - root), 7 }
	}
	for _, guess := range []float64{0, 1, 3} {
		for root, want := range map[float64]float64{-9e-10: 0, 3 + 9e-10: 3} {
			if x, err := Rising(line(root), guess, 0, 3, 1e-12, 1e-9); err != nil || x != want {
				t.Errorf("root at %v from %v: %v, %v", root, guess, x, err)
			}
			if x, err := Rising(line(root), guess, 0, 3, 1e-12, 1e-10); !errors.Is(err, ErrNoRoot) {
				t.Errorf("root at %v from %v is beyond 1e-10: %v, %v", root, guess, x, err)
			}
		}
	}
	falls := func(x float64) (float64, float64) { return 1e-12 - x*1e-3, -1e-3 }
	if x, err := Rising(falls, 1, 0, 3, 1e-12, 1e-9); !errors.Is(err, ErrNoRoot) {
		t.Errorf("a function that falls has no end: %v, %v", x, err)
	}
}

// A Newton step that stays inside is taken: few evaluations, as close to the
// root as the step that ends it squared.
func TestARootTakesFewEvaluations(t *testing.T) {
	for _, c := range []struct {
		name        string
		f           func(x float64) (float64, float64)
		guess, a, b float64
		most        int
	}{
		{"line", func(x float64) (float64, float64) { return 3*x - 4, 3 }, 0.1, 0, 10, 2},
		{"cube root", func(x float64) (float64, float64) { return x*x*x - 2, 3 * x * x }, 2, 0, 10, 7},
		{"from outside, the middle first", func(x float64) (float64, float64) { return x - 5, 1 }, 99, 0, 10, 1},
		{"from below, the middle first", func(x float64) (float64, float64) { return x - 5, 1 }, -1, 0, 10, 1},
		{"halving alone", func(x float64) (float64, float64) { return math.Copysign(1, x-0.7), 0 }, 0.1, 0, 3, 65},
	} {
		n := 0
		if _, err := Rising(func(x float64) (float64, float64) { n++; return c.f(x) }, c.guess, c.a, c.b, 1e-9, 0); err != nil || n > c.most {
			t.Errorf("%s: %d evaluations where %d are enough, %v", c.name, n, c.most, err)
		}
	}
	// A guess inside is where it begins.
	first := math.NaN()
	if _, err := Rising(func(x float64) (float64, float64) {
		if math.IsNaN(first) {
			first = x
		}
		return x - 5, 1
	}, 7, 0, 10, 1e-9, 0); err != nil || first != 7 {
		t.Errorf("the guess 7 begins at %v, %v", first, err)
	}
}
