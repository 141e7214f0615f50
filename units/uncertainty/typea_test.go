package uncertainty

import (
	"errors"
	"math"
	"testing"
)

// The correlations of JCGM 100:2008, H.2, table H.2, printed -0.36, 0.86 and
// -0.65 (from memory), and its standard uncertainties of the means.
func TestTypeAOfImpedance(t *testing.T) {
	in, r, err := TypeA(
		Series{"V", []float64{5.007, 4.994, 5.005, 4.990, 4.999}},
		Series{"I", []float64{19.663, 19.639, 19.640, 19.685, 19.678}},
		Series{"phi", []float64{1.0456, 1.0438, 1.0468, 1.0428, 1.0433}})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ got, printed, half float64 }{
		{in[0].Value, 4.9990, 5e-5}, {in[0].Standard, 0.0032, 5e-5},
		{in[1].Value, 19.6610, 5e-5}, {in[1].Standard, 0.0095, 5e-5},
		{in[2].Value, 1.04446, 5e-6}, {in[2].Standard, 0.00075, 5e-6},
		{r.At(0, 1), -0.36, 5e-3}, {r.At(0, 2), 0.86, 5e-3}, {r.At(1, 2), -0.65, 5e-3},
	} {
		if math.Abs(c.got-c.printed) > c.half*(1+1e-9) { // half the last printed digit
			t.Errorf("%v, printed %v", c.got, c.printed)
		}
	}
	if in[0].DegreesOfFreedom != 4 {
		t.Errorf("degrees of freedom %v", in[0].DegreesOfFreedom)
	}
}

// Evaluating a linear function at every set of readings, and propagating the
// means, are the same (JCGM 100:2008, H.2.4, approach 2).
func TestTypeAApproaches(t *testing.T) {
	a, b := []float64{1, 4, 2, 8, 5, 7}, []float64{3, 1, 4, 1, 5, 9}
	sum := make([]float64, len(a))
	for i := range a {
		sum[i] = 2*a[i] - 3*b[i]
	}
	in, r, err := TypeA(Series{"a", a}, Series{"b", b})
	if err != nil {
		t.Fatal(err)
	}
	first, err := Propagate(linear(2, -3), in, r)
	if err != nil {
		t.Fatal(err)
	}
	second, _, err := TypeA(Series{"sum", sum})
	if err != nil {
		t.Fatal(err)
	}
	if s := second[0]; !near(first.Value, s.Value) || !near(first.Standard, s.Standard) || !near(first.DegreesOfFreedom, s.DegreesOfFreedom) {
		t.Errorf("%v with %v degrees, %+v", first, first.DegreesOfFreedom, s)
	}
}

// A line through exact points is found; its uncertainty at the mean of x is
// that of a mean; the origin of x does not matter.
func TestLine(t *testing.T) {
	x, y := []float64{1, 2, 3, 4}, []float64{1.1, 1.9, 3.2, 3.8}
	var at []Result
	for _, origin := range []float64{0, 2.5, -40} {
		l, err := FitLine(x, y, origin)
		if err != nil {
			t.Fatal(err)
		}
		r, err := l.At(3.5)
		if err != nil {
			t.Fatal(err)
		}
		at = append(at, r)
		middle, err := l.At(2.5)
		if err != nil || !near(middle.Value, 2.5) || !near(middle.Standard, l.Residual/2) || !near(middle.DegreesOfFreedom, 2) {
			t.Errorf("origin %v, middle %v, residual %v, %v", origin, middle, l.Residual, err)
		}
	}
	for _, r := range at[1:] {
		if !near(r.Value, at[0].Value) || !near(r.Standard, at[0].Standard) {
			t.Errorf("%v, %v", r, at[0])
		}
	}
	l, err := FitLine(x, []float64{3, 5, 7, 9}, 0)
	if err != nil || !near(l.Intercept, 1) || !near(l.Slope, 2) || l.Residual > 1e-12 {
		t.Errorf("%+v, %v", l, err)
	}
}

func TestReadingsDomain(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	typeA := func(series ...Series) error { _, _, err := TypeA(series...); return err }
	fit := func(x, y []float64, origin float64) error { _, err := FitLine(x, y, origin); return err }
	three := []float64{1, 2, 3}
	l, err := FitLine(three, three, 0)
	if err != nil {
		t.Fatal(err)
	}
	at := func(x float64) error { _, err := l.At(x); return err }
	beyond := func(x float64) error { _, err := l.Extrapolate(x); return err }
	for _, c := range []struct {
		name string
		err  error
		want string
	}{
		{"none", typeA(), "number of series 0"},
		{"one reading", typeA(Series{"V", []float64{1}}), "V: number of readings 1"},
		{"two readings", typeA(Series{"V", []float64{1, 2}}), ""},
		{"unequal", typeA(Series{"V", three}, Series{"I", []float64{1, 2}}), "I: number of readings 2"},
		{"NaN", typeA(Series{"V", []float64{1, nan}}), "V: reading NaN"},
		{"Inf", typeA(Series{"V", []float64{1, inf}}), "V: reading +Inf"},
		{"two points", fit([]float64{1, 2}, []float64{1, 2}, 0), "number of points 2"},
		{"three points", fit(three, three, 0), ""},
		{"unequal points", fit(three, []float64{1, 2}, 0), "number of y 2"},
		{"x NaN", fit([]float64{1, 2, nan}, three, 0), "x NaN"},
		{"y Inf", fit(three, []float64{1, 2, inf}, 0), "y +Inf"},
		{"origin NaN", fit(three, three, nan), "origin NaN"},
		{"at 0.99", at(0.99), "x 0.99 is out of range: 1 to 3"},
		{"at 1", at(1), ""},
		{"at NaN", at(nan), "x NaN"},
		{"beyond", beyond(4), ""},
		{"beyond NaN", beyond(nan), "x NaN"},
	} {
		checkDomain(t, c.name, c.err, c.want)
	}
	if err := fit([]float64{2, 2, 2}, three, 0); !errors.Is(err, ErrNoLine) {
		t.Errorf("%v", err)
	}
	in, r, err := TypeA(Series{"a", []float64{2, 2, 2}}, Series{"b", three})
	if err != nil || in[0].Standard != 0 || r.At(0, 1) != 0 {
		t.Errorf("a constant series: %+v, %v, %v", in, r, err)
	}
}

func TestLineInputs(t *testing.T) {
	l, err := FitLine([]float64{1, 2, 3, 4}, []float64{2.1, 3.9, 6.2, 7.8}, 0)
	if err != nil {
		t.Fatal(err)
	}
	in, r := l.Inputs()
	if len(in) != 2 || in[0].Value != l.Intercept || in[1].Standard != l.SlopeStandard || r.At(0, 1) != l.Correlation {
		t.Errorf("%+v", in)
	}
}
