package formula

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.org/mutage/units"
	"github.com/shopspring/decimal"
)

func none(key string) (float64, error) { return map[string]float64{"a": 3, "b_2": -0.5}[key], nil }

func TestExpressionsAreReadAsASpreadsheetReadsThem(t *testing.T) {
	for text, want := range map[string]float64{
		"1+2*3":               7,
		"(1+2)*3":             9,
		"2-3-4":               -5,
		"8/4/2":               1,
		"{a}*{b_2}":           -1.5,
		"-{a}+1":              -2,
		"2*-3":                -6,
		"2^3*2":               16,
		"10^({a}-1)":          100,
		"1.5E-05+2E+03":       2000.000015,
		"ABS({b_2})":          0.5,
		"INT(-1.5)":           -2,
		"SIGN({b_2})+SIGN(0)": -1,
		"SQRT(16)+LN(EXP(2))": 6,
	} {
		got, err := Eval(text, none)
		if err != nil || math.Abs(got-want) > 1e-12 {
			t.Errorf("%s gives %v, %v; expected %v", text, got, err, want)
		}
	}
}

func TestWhatProgramsReadDifferentlyIsRefused(t *testing.T) {
	for _, text := range []string{"", "1+", "-2^2", "2^3^2", "MIN(1,2)", "MIN(1;2)", "{a", "1,5", "(1", "1 + 2", "SUM(1)", "abs(1)", "1)"} {
		if x, err := Eval(text, none); err == nil {
			t.Errorf("%q is taken, as %v", text, x)
		}
	}
}

func TestPolynomialsComeBack(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 1000 {
		c := make([]float64, 1+random.IntN(12))
		for i := range c {
			c[i] = random.NormFloat64() * math.Pow10(random.IntN(12)-6)
		}
		x, want := 2*random.Float64()-1, 0.0
		for i := len(c) - 1; i >= 0; i-- {
			want = want*x + c[i]
		}
		got, err := Eval(Polynomial(c, "{x}"), func(string) (float64, error) { return x, nil })
		if err != nil || got != want {
			t.Fatalf("%s at %v gives %v, %v; expected %v", Polynomial(c, "{x}"), x, got, err, want)
		}
	}
	if Polynomial(nil, "{x}") != "0" {
		t.Error("no coefficients are not zero")
	}
}

func TestFitFollowsTheFunction(t *testing.T) {
	for _, fit := range []struct {
		lo, hi float64
		f      func(float64) float64
	}{{0, 2, math.Exp}, {-3, -1, math.Cos}, {-1, 1, func(x float64) float64 { return 4 - x*x*x }}} {
		text := NewFit(fit.f, fit.lo, fit.hi, 12).Text("{x}")
		for i := range 101 {
			x := fit.lo + (fit.hi-fit.lo)*float64(i)/100
			got, err := Eval(text, func(string) (float64, error) { return x, nil })
			if err != nil || math.Abs(got-fit.f(x)) > 1e-10 {
				t.Fatalf("at %v the fit gives %v, %v; expected %v", x, got, err, fit.f(x))
			}
		}
	}
}

func TestKeysAreListedInOrder(t *testing.T) {
	if got := strings.Join(Keys("{strength}*4.5+{sugar}/10"), " "); got != "strength sugar" {
		t.Errorf("keys %q", got)
	}
}

// Each fault that Check knows is found.
func TestCheckFindsEveryFault(t *testing.T) {
	whole := units.Figure{Key: "a", Name: "a", Value: decimal.New(3, 0), Method: "stated", Source: "input"}
	double := whole
	double.Key, double.Value, double.Formula = "b", decimal.New(6, 0), "2*{a}"
	if err := Check([]units.Figure{whole, double}); err != nil {
		t.Fatal(err)
	}
	for more, good := range map[int]bool{2045: true, 2046: false} { // 4096 characters and 4098
		f := double
		f.Formula += strings.Repeat("+0", more)
		if err := Check([]units.Figure{whole, f}); (err == nil) != good {
			t.Errorf("%d characters: %v", len(f.Formula), err)
		}
	}
	for fault, change := range map[string]func(f *units.Figure){
		"snake_case":  func(f *units.Figure) { f.Key = "B" },
		"twice":       func(f *units.Figure) { f.Key = "a" },
		"no name":     func(f *units.Figure) { f.Name = "" },
		"no method":   func(f *units.Figure) { f.Method = "" },
		"no source":   func(f *units.Figure) { f.Source = "" },
		"more than":   func(f *units.Figure) { f.Formula += strings.Repeat("+0", 3000) },
		"gives 6":     func(f *units.Figure) { f.Value = decimal.New(7, 0) },
		"no figure":   func(f *units.Figure) { f.Formula = "{c}" },
		"back to its": func(f *units.Figure) { f.Formula = "{b}" },
	} {
		f := double
		change(&f)
		if err := Check([]units.Figure{whole, f}); err == nil || !strings.Contains(err.Error(), fault) {
			t.Errorf("%s: found %v", fault, err)
		}
	}
}

// A minus stands in parentheses, where programs would read it as one of two.
func TestNegativeCoefficients(t *testing.T) {
	if got := Polynomial([]float64{1, -2, 3}, "{x}"); got != "1+{x}*(-2+{x}*3)" {
		t.Error(got)
	}
	if got := Polynomial([]float64{1, 2, -3}, "{x}"); got != "1+{x}*(2+{x}*(-3))" {
		t.Error(got)
	}
}

// A middle below zero is added.
func TestFitAroundLessThanZero(t *testing.T) {
	if got := NewFit(math.Cos, -3, -1, 2).Text("{x}"); !strings.Contains(got, "({x}+2)") {
		t.Error(got)
	}
}

// A fit of a polynomial by one of its own degree is that polynomial.
func TestFitOfItsOwnDegree(t *testing.T) {
	cubic := func(x float64) float64 { return 2 - x + 3*x*x - 0.5*x*x*x }
	text := NewFit(cubic, 1, 4, 3).Text("{x}")
	for _, x := range []float64{1, 1.7, 2.2, 3.9} {
		got, err := Eval(text, func(string) (float64, error) { return x, nil })
		if err != nil || math.Abs(got-cubic(x)) > 1e-12 {
			t.Errorf("at %v: %v, %v, expected %v", x, got, err, cubic(x))
		}
	}
}

// A formula may part from its figure by half of the last place and a fiftieth of
// that: 0.51 of it.
func TestAFormulaIsItsFigure(t *testing.T) {
	whole := units.Figure{Key: "a", Name: "a", Value: decimal.New(3, 0), Method: "stated", Source: "input"}
	for formula, good := range map[string]bool{"{a}*2+0.0509": true, "{a}*2+0.0515": false, "{a}*2-0.0509": true, "{a}*2-0.0515": false} {
		double := whole
		double.Key, double.Value, double.Formula = "b", decimal.New(60, -1), formula
		if err := Check([]units.Figure{whole, double}); (err == nil) != good {
			t.Errorf("6.0 by %s: %v", formula, err)
		}
	}
}
