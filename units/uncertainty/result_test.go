package uncertainty

import (
	"errors"
	"math"
	"math/big"
	"strings"
	"testing"

	"example.org/mutage/units"
	"gonum.org/v1/gonum/mat"
)

// Student's t as in JCGM 100:2008, table G.2; the rows are from memory, the
// value at one degree of freedom is also tan(pi p/2).
func TestCoverageFactor(t *testing.T) {
	for _, c := range []struct{ p, degrees, k, half float64 }{
		{0.95, 1, math.Tan(math.Pi * 0.475), 1e-9}, {0.99, 1, math.Tan(math.Pi * 0.495), 1e-9},
		{0.95, 1, 12.71, 5e-3}, {0.95, 2, 4.30, 5e-3}, {0.95, 4, 2.78, 5e-3}, {0.95, 10, 2.23, 5e-3}, {0.95, 50, 2.01, 5e-3},
		{0.99, 1, 63.66, 5e-3}, {0.99, 4, 4.60, 5e-3}, {0.99, 16, 2.92, 5e-3}, {0.99, 100, 2.626, 5e-4}, {0.6827, 3, 1.20, 5e-3},
		{0.95, 0, 1.960, 5e-4}, {0.99, 0, 2.576, 5e-4}, {0.6827, 0, 1.000, 5e-4}, {0.95, 1e12, 1.960, 5e-4},
		{0.99, 16.9, 2.92, 5e-3},         // truncated to 16; 17 has 2.90
		{0.95, 3.9999999999, 2.78, 5e-3}, // 4 but for rounding; 3 has 3.18
	} {
		k, err := CoverageFactor(c.p, c.degrees)
		if err != nil || math.Abs(k-c.k) > c.half { // half the last printed digit
			t.Errorf("k(%v, %v) = %v, %v; printed %v", c.p, c.degrees, k, err, c.k)
		}
	}
}

func TestAcceptanceLimits(t *testing.T) {
	r := Result{Value: 10, Standard: 2}
	// Two standard uncertainties guard with 97.725 %.
	up, err1 := r.UpperAcceptanceLimit(20, 0.9772498680518208)
	down, err2 := r.LowerAcceptanceLimit(5, 0.9772498680518208)
	if err := errors.Join(err1, err2); err != nil || !near(up, 16) || !near(down, 9) {
		t.Errorf("%v, %v, %v", up, down, err)
	}
	for _, degrees := range []float64{0, 3, 7.5} {
		for _, confidence := range []float64{0.5, 0.9, 0.9999} {
			r := Result{Value: 10, Standard: 2, DegreesOfFreedom: degrees}
			up, err := r.UpperAcceptanceLimit(20, confidence)
			if err != nil {
				t.Fatal(err)
			}
			r.Value = up
			above, err := r.AtLeast(20)
			if err != nil || math.Abs(above-(1-confidence)) > 1e-9 {
				t.Errorf("at the limit for %v the risk is %v, %v", confidence, above, err)
			}
		}
	}
	for limit, want := range map[float64]float64{9.9: 1, 10: 1, 10.1: 0} {
		if p, err := (Result{Value: 10}).AtLeast(limit); err != nil || p != want {
			t.Errorf("exact 10 at least %v: %v, %v", limit, p, err)
		}
	}
}

func TestRound(t *testing.T) {
	for _, c := range []struct {
		value, standard float64
		want            string
	}{
		{127.7321, 0.0713, "127.732, u 0.071"},
		{12.34567, 9.96, "12, u 10"},
		{12.34567, 9.94, "12.3, u 9.9"},
		{12.34567, 0.0995, "12.35, u 0.10"}, // half up
		{12.34567, 0.125, "12.35, u 0.13"},
		{5, 0.0012, "5.0000, u 0.0012"},
		{-0.149350, 0.0041386, "-0.1494, u 0.0041"},
		{50_000_838.2, 31.67, "50000838, u 32"},
		{123_456, 1234, "123500, u 1200"},
		{123_456, 99_600, "120000, u 100000"},
		{0, 0.5, "0.00, u 0.50"},
		{0.004, 3, "0.0, u 3.0"},
		{1.0 / 3, 0, "0.333333333333333, u 0"},
		{1234, 0, "1234, u 0"},
		{0, 0, "0, u 0"},
	} {
		if got := (Result{Value: c.value, Standard: c.standard}).String(); got != c.want {
			t.Errorf("%v, %v: %q, want %q", c.value, c.standard, got, c.want)
		}
	}
	if s := (Result{Value: math.NaN()}).String(); !strings.Contains(s, "value NaN") {
		t.Errorf("%q", s)
	}
}

// FuzzRound: the uncertainty has two digits and is off by no more than half of
// the last; so is the value.
func FuzzRound(f *testing.F) {
	for _, s := range []float64{0, 9.96, 0.0995, 5e-324, 1e300, 2, 0.1} {
		f.Add(12.34567, s)
		f.Add(-1e300, s)
	}
	f.Fuzz(func(t *testing.T, value, standard float64) {
		v, u, err := Round(value, standard)
		if err != nil {
			var bounds *units.RangeError
			if !errors.As(err, &bounds) || math.Abs(value) <= largest && standard >= 0 && standard <= largest {
				t.Fatalf("%v, %v: %v", value, standard, err)
			}
			return
		}
		if standard == 0 {
			if got := v.InexactFloat64(); math.Abs(got-value) > 1e-14*math.Abs(value) || !u.IsZero() {
				t.Fatalf("%v exactly: %v, %v", value, v, u)
			}
			return
		}
		if u.NumDigits() != 2 || v.Exponent() != u.Exponent() {
			t.Fatalf("%v, %v: %v and %v", value, standard, v, u)
		}
		// In exact arithmetic; the shortest decimal of a float64 is within 2^-52
		// or half the smallest float64 of it.
		slop := new(big.Rat).Add(new(big.Rat).Mul(ten(u.Exponent()), big.NewRat(1, 2)), new(big.Rat).SetFloat64(5e-324))
		for _, c := range []struct {
			from float64
			to   *big.Rat
		}{{value, v.Rat()}, {standard, u.Rat()}} {
			from := new(big.Rat).SetFloat64(c.from)
			off := new(big.Rat).Sub(c.to, from)
			ulp := new(big.Rat).Mul(from.Abs(from), big.NewRat(1, 1<<52))
			if off.Abs(off).Cmp(ulp.Add(ulp, slop)) > 0 {
				t.Fatalf("%v, %v: %v and %v", value, standard, v, u)
			}
		}
	})
}

func ten(exponent int32) *big.Rat {
	p := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(max(exponent, -exponent))), nil)
	r := new(big.Rat).SetInt(p)
	if exponent < 0 {
		r.Inv(r)
	}
	return r
}

// Everything exported that takes numbers, with NaN, infinities and both sides
// of its domain: a *units.RangeError that names the quantity, or no error.
func TestDomains(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	propagate := func(x Input) error {
		_, err := Propagate(linear(1), []Input{x}, nil)
		return err
	}
	carlo := func(x Input) error {
		_, err := MonteCarlo(linear(1), []Input{x}, nil, MinTrials, 1)
		return err
	}
	correlated := func(rs ...float64) error {
		in := []Input{{Name: "a", Standard: 1}, {Name: "b", Standard: 1}, {Name: "c", Standard: 1}}
		_, err1 := Propagate(linear(1, 1, 1), in, coefficients(rs...))
		_, err2 := MonteCarlo(linear(1, 1, 1), in, coefficients(rs...), MinTrials, 1)
		if (err1 == nil) != (err2 == nil) {
			t.Errorf("%v: Propagate %v, MonteCarlo %v", rs, err1, err2)
		}
		return err1
	}
	r := Result{Value: 10, Standard: 1}
	sampled, err := MonteCarlo(linear(1), []Input{{Standard: 1}}, nil, MinTrials, 1)
	if err != nil {
		t.Fatal(err)
	}
	last := func(xs ...any) error { err, _ := xs[len(xs)-1].(error); return err }
	trials := func(n int) error { return last(MonteCarlo(linear(1), []Input{{}}, nil, n, 1)) }
	skew := mat.NewSymDense(2, []float64{1, 0, 0, 1})
	cases := []struct {
		name string
		err  error
		want string // in the message; empty for accepted
	}{
		{"no input", last(Propagate(linear(), nil, nil)), "number of inputs 0"},
		{"value NaN", propagate(Input{Name: "og", Value: nan}), "og: value NaN"},
		{"value Inf", carlo(Input{Value: inf}), "input 1: value +Inf"},
		{"standard NaN", propagate(Input{Standard: nan}), "input 1: standard uncertainty NaN"},
		{"standard -1", propagate(Input{Standard: -1}), "input 1: standard uncertainty -1"},
		{"standard Inf", carlo(RectangularInput("", 0, inf)), "input 1: standard uncertainty +Inf"},
		{"half -1", propagate(TriangularInput("", 0, -1)), "standard uncertainty"},
		{"half NaN", propagate(ArcsineInput("", 0, nan)), "standard uncertainty"},
		{"degrees NaN", propagate(Input{DegreesOfFreedom: nan}), "degrees of freedom"},
		{"degrees Inf", propagate(Input{DegreesOfFreedom: inf}), "degrees of freedom"},
		{"degrees 0.9", propagate(Input{DegreesOfFreedom: 0.9}), "degrees of freedom"},
		{"degrees 1", propagate(Input{Standard: 1, DegreesOfFreedom: 1}), ""},
		{"degrees 1e300", errors.Join(propagate(Input{Standard: 1, DegreesOfFreedom: 1e300}), carlo(Input{Standard: 1, DegreesOfFreedom: 1e300})), ""},
		{"degrees 2.9, t", carlo(Input{Standard: 1, DegreesOfFreedom: 2.9}), "at least 3"},
		{"degrees 3, t", carlo(Input{Standard: 1, DegreesOfFreedom: 3}), ""},
		{"degrees, triangular", carlo(Input{Standard: 1, DegreesOfFreedom: 9, Distribution: Triangular}), "triangular"},
		{"distribution 4", propagate(Input{Distribution: 4}), "input 1: distribution 4"},
		{"distribution -1", propagate(Input{Distribution: -1}), "input 1: distribution -1"},
		{"huge", last(Propagate(linear(1e200), []Input{{Standard: 1e200}}, nil)), "at input 1 = -1e+200: result -Inf"},
		{"trials 999", trials(MinTrials - 1), "trials 999"},
		{"trials 1000", trials(MinTrials), ""},
		{"trials 1e7+1", trials(MaxTrials + 1), "trials 1e+07"},
		{"size", last(Propagate(linear(1), []Input{{}}, skew)), "rows of the correlation matrix 2"},
		{"size 0", last(Propagate(linear(1), []Input{{}}, &mat.SymDense{})), "rows of the correlation matrix 0"},
		{"nil matrix", last(Propagate(linear(1), []Input{{}}, (*mat.SymDense)(nil))), ""},
		{"identity", correlated(1, 0, 0, 0, 1, 0, 0, 0, 1), ""},
		{"singular", correlated(1, 1, 1, 1, 1, 1, 1, 1, 1), ""},
		{"diagonal", correlated(1, 0, 0, 0, 0.9, 0, 0, 0, 1), "b with b: correlation 0.9"},
		{"r 1.1", correlated(1, 1.1, 0, 1.1, 1, 0, 0, 0, 1), "b with a: correlation 1.1"},
		{"r -1.1", correlated(1, -1.1, 0, -1.1, 1, 0, 0, 0, 1), "b with a: correlation -1.1"},
		{"r NaN", correlated(1, nan, 0, nan, 1, 0, 0, 0, 1), "b with a: correlation NaN"},
		{"impossible", correlated(1, 0.9, -0.9, 0.9, 1, 0.9, -0.9, 0.9, 1), "lowest eigenvalue of the correlation matrix -0.8"},
		{"asymmetric", last(Propagate(linear(1, 1), []Input{{Name: "a"}, {Name: "b"}}, asymmetric{skew})), "a with b: correlation 0.5"},
		{"k, p NaN", last(CoverageFactor(nan, 0)), "coverage probability NaN"},
		{"k, p 0", last(CoverageFactor(0, 0)), "coverage probability 0"},
		{"k, p 1", last(CoverageFactor(1, 0)), "coverage probability 1"},
		{"k, p 0.9999", last(CoverageFactor(0.9999, 1)), ""},
		{"k, p 0.01", last(CoverageFactor(0.01, 0)), ""},
		{"k, degrees -1", last(CoverageFactor(0.95, -1)), "degrees of freedom"},
		{"U, p 1", last(r.Expanded(1)), "coverage probability 1"},
		{"U, p 0.995 of 1000", last(sampled.Expanded(0.995)), "0.01 to 0.99"},
		{"U, p 0.99 of 1000", last(sampled.Expanded(0.99)), ""},
		{"interval of NaN", last(Result{Value: nan}.Interval(0.95)), "value NaN"},
		{"quantile 0", last(r.Quantile(0)), "probability 0"},
		{"quantile NaN", last(sampled.Quantile(nan)), "probability NaN"},
		{"quantile 0.0001", last(r.Quantile(0.0001)), ""},
		{"quantile 0.01 of 1000", last(sampled.Quantile(0.01)), ""},
		{"quantile 0.009 of 1000", last(sampled.Quantile(0.009)), "probability 0.009"},
		{"at least NaN", last(r.AtLeast(nan)), "limit NaN"},
		{"at least Inf", last(sampled.AtLeast(-inf)), "limit -Inf"},
		{"at least, bad u", last(Result{Standard: -1}.AtLeast(1)), "standard uncertainty -1"},
		{"accept NaN", last(r.UpperAcceptanceLimit(nan, 0.95)), "limit NaN"},
		{"accept 0.4", last(r.UpperAcceptanceLimit(1, 0.4)), "confidence 0.4"},
		{"accept 0.9999", last(r.LowerAcceptanceLimit(1, 0.9999)), ""},
		{"accept 1", last(r.LowerAcceptanceLimit(1, 1)), "confidence 1"},
		{"accept 0.99 of 1000", last(sampled.LowerAcceptanceLimit(1, 0.99)), ""},
		{"compare order", last(Compare(sampled, r, 2)), "trials of the propagated result 1000"},
		{"compare nothing", last(Compare(r, r, 2)), "trials of the Monte Carlo result 0"},
		{"compare digits 0", last(Compare(r, sampled, 0)), "significant digits 0"},
		{"compare digits 5", last(Compare(r, sampled, 5)), "significant digits 5"},
		{"compare digits 4", last(Compare(r, sampled, 4)), ""},
		{"round NaN", last(Round(nan, 1)), "value NaN"},
		{"round u Inf", last(Round(1, inf)), "standard uncertainty +Inf"},
		{"round u -1", last(Round(1, -1)), "standard uncertainty -1"},
	}
	for _, c := range cases {
		checkDomain(t, c.name, c.err, c.want)
	}
	if _, err := Propagate(nil, []Input{{}}, nil); !errors.Is(err, ErrNoModel) {
		t.Errorf("nil function: %v", err)
	}
	if _, err := MonteCarlo(nil, []Input{{}}, nil, MinTrials, 1); !errors.Is(err, ErrNoModel) {
		t.Errorf("nil function: %v", err)
	}
}

func checkDomain(t *testing.T, name string, err error, want string) {
	t.Helper()
	var bounds *units.RangeError
	switch {
	case want == "" && err != nil:
		t.Errorf("%s: %v", name, err)
	case want != "" && (!errors.As(err, &bounds) || !strings.Contains(err.Error(), want)):
		t.Errorf("%s: %v, want %q", name, err, want)
	}
}

// asymmetric is a matrix that only claims to be symmetric.
type asymmetric struct{ mat.Symmetric }

func (a asymmetric) At(i, j int) float64 {
	if i < j {
		return 0.5
	}
	return a.Symmetric.At(i, j)
}
