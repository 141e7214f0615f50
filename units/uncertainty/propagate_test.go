package uncertainty

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.org/mutage/units"
	"gonum.org/v1/gonum/mat"
)

// near compares at what float64 rounding leaves of a difference quotient over
// one standard uncertainty: 1e-16 of the result over the contribution, which
// the tests keep above 1e-4.
func near(a, b float64) bool { return math.Abs(a-b) <= 1e-10*max(1, math.Abs(a), math.Abs(b)) }

func coefficients(rs ...float64) *mat.SymDense {
	n := int(math.Sqrt(float64(len(rs))))
	return mat.NewSymDense(n, rs)
}

func linear(c ...float64) func(x []float64) (float64, error) {
	return func(x []float64) (float64, error) {
		y := 0.0
		for i := range c {
			y += c[i] * x[i]
		}
		return y, nil
	}
}

// JCGM 100:2008, H.2. By the first approach, propagation, the readings give
// 0.29558 for X where 0.295 is printed; the exact derivatives give the same, and
// the second approach, every set of readings evaluated alone, 0.29549. So the
// print holds for the second, and X by the first is compared with the exact
// derivatives instead. Without the correlations u is 0.195, 0.201 and 0.204.
func TestImpedance(t *testing.T) {
	series := []Series{
		{"V", []float64{5.007, 4.994, 5.005, 4.990, 4.999}},
		{"I", []float64{19.663e-3, 19.639e-3, 19.640e-3, 19.685e-3, 19.678e-3}},
		{"phi", []float64{1.0456, 1.0438, 1.0468, 1.0428, 1.0433}}}
	in, r, err := TypeA(series...)
	if err != nil {
		t.Fatal(err)
	}
	v, i, phi := in[0].Value, in[1].Value, in[2].Value
	x := v / i * math.Sin(phi)
	exact := 0.0
	for j, c := range []float64{x / v, -x / i, x / math.Tan(phi)} {
		for k, d := range []float64{x / v, -x / i, x / math.Tan(phi)} {
			exact += c * d * in[j].Standard * in[k].Standard * r.At(j, k)
		}
	}
	for _, c := range []struct {
		name                        string
		f                           func(x []float64) (float64, error)
		value, first, second, alone float64
	}{
		{"R", func(x []float64) (float64, error) { return x[0] / x[1] * math.Cos(x[2]), nil }, 127.732, 0.071, 0.071, 0.195},
		{"X", func(x []float64) (float64, error) { return x[0] / x[1] * math.Sin(x[2]), nil }, 219.847, math.Sqrt(exact), 0.295, 0.201},
		{"Z", func(x []float64) (float64, error) { return x[0] / x[1], nil }, 254.260, 0.236, 0.236, 0.204},
	} {
		first, err := Propagate(c.f, in, r)
		if err != nil {
			t.Fatal(err)
		}
		alone, err := Propagate(c.f, in, nil)
		if err != nil {
			t.Fatal(err)
		}
		each := Series{Name: c.name}
		for k := range series[0].Readings {
			z, _ := c.f([]float64{series[0].Readings[k], series[1].Readings[k], series[2].Readings[k]})
			each.Readings = append(each.Readings, z)
		}
		second, _, err := TypeA(each)
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("%s: u %.5f and %.5f, without correlation %.5f", c.name, first.Standard, second[0].Standard, alone.Standard)
		for _, pair := range [][2]float64{{first.Value, c.value}, {second[0].Value, c.value}, {first.Standard, c.first}, {second[0].Standard, c.second}, {alone.Standard, c.alone}} {
			if math.Abs(pair[0]-pair[1]) > 0.0005 { // half the last printed digit
				t.Errorf("%s: %v, printed %v", c.name, pair[0], pair[1])
			}
		}
		if first.DegreesOfFreedom != 4 {
			t.Errorf("%s: %v degrees of freedom, want 4 as for the readings", c.name, first.DegreesOfFreedom)
		}
	}
}

// For linear f the budget is exact: u^2 = sum c_i c_j u_i u_j r_ij.
func TestLinearIsExact(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		n := 1 + rnd.IntN(5)
		in, c := make([]Input, n), make([]float64, n)
		scores := mat.NewDense(n, n+1, nil) // r from any rows of unit length
		for i := range in {
			c[i] = rnd.NormFloat64() + 2
			in[i] = Input{Value: rnd.NormFloat64(), Standard: 0.01 + rnd.Float64()}
			row := scores.RawRowView(i)
			for j := range row {
				row[j] = rnd.NormFloat64()
			}
			length := mat.Norm(scores.RowView(i), 2)
			for j := range row {
				row[j] /= length
			}
		}
		var r mat.SymDense
		r.SymOuterK(1, scores)
		got, err := Propagate(linear(c...), in, &r)
		if err != nil {
			t.Fatal(err)
		}
		variance, shares := 0.0, 0.0
		for i := range in {
			for j := range in {
				variance += c[i] * c[j] * in[i].Standard * in[j].Standard * r.At(i, j)
			}
			shares += got.Budget[i].Share
			if !near(got.Budget[i].Sensitivity, c[i]) {
				t.Errorf("sensitivity %v, want %v", got.Budget[i].Sensitivity, c[i])
			}
		}
		if !near(got.Standard, math.Sqrt(variance)) || !near(shares, 1) {
			t.Errorf("u = %v, want %v; shares add up to %v", got.Standard, math.Sqrt(variance), shares)
		}
	}
}

func TestFullCorrelation(t *testing.T) {
	in := []Input{{Value: 5, Standard: 0.3, DegreesOfFreedom: 4}, {Value: 7, Standard: 0.2, DegreesOfFreedom: 4}}
	for _, c := range []struct{ r, u, degrees float64 }{
		{1, 0.5, 4},
		{-1, 0.1, 4},
		{0, math.Sqrt(0.13), 0.13 * 0.13 / (0.3*0.3*0.3*0.3/4 + 0.2*0.2*0.2*0.2/4)},
	} {
		r, err := Propagate(linear(1, 1), in, coefficients(1, c.r, c.r, 1))
		if err != nil || !near(r.Standard, c.u) || !near(r.DegreesOfFreedom, c.degrees) {
			t.Errorf("r = %v: %+v, %v; want u %v, degrees %v", c.r, r, err, c.u, c.degrees)
		}
	}
	in[1].Standard = 0.3
	r, err := Propagate(linear(1, -1), in, coefficients(1, 1, 1, 1))
	if err != nil || r.Standard != 0 || r.DegreesOfFreedom != 0 {
		t.Errorf("a difference that cancels: %+v, %v", r, err)
	}
}

// Two pairs, observed apart: Welch-Satterthwaite over the pairs.
func TestDegreesOfFreedomOfGroups(t *testing.T) {
	in := []Input{
		{Standard: 1, DegreesOfFreedom: 9}, {Standard: 2, DegreesOfFreedom: 4},
		{Standard: 1, DegreesOfFreedom: 9}, {Standard: 1, DegreesOfFreedom: 4}, {Standard: 3},
	}
	r, err := Propagate(linear(1, 1, 1, 1, 1), in, coefficients(
		1, 0, .5, 0, 0,
		0, 1, 0, -.5, 0,
		.5, 0, 1, 0, 0,
		0, -.5, 0, 1, 0,
		0, 0, 0, 0, 1))
	// Variances 1+1+1 = 3 with 9 and 4+1-2 = 3 with 4 degrees, 9 with infinitely many.
	if want := 15. * 15 / (9./9 + 9./4); err != nil || !near(r.DegreesOfFreedom, want) {
		t.Errorf("degrees of freedom %v (%v), want %v", r.DegreesOfFreedom, err, want)
	}
}

// A function with an edge near the value is differentiated on its inner side.
func TestOneSidedDerivative(t *testing.T) {
	outside := errors.New("outside")
	for _, side := range []float64{1, -1} {
		calls := 0
		f := func(x []float64) (float64, error) {
			calls++
			if side*(x[0]-2) < 0 {
				return 0, outside
			}
			return 3*x[0]*x[0] + x[0], nil // second degree: exact
		}
		r, err := Propagate(f, []Input{{Name: "reading", Value: 2, Standard: 0.1}}, nil)
		if err != nil || !near(r.Budget[0].Sensitivity, 13) || !near(r.Standard, 1.3) || calls != 5 {
			t.Errorf("side %v: %+v, %v, %d calls", side, r, err, calls)
		}
	}
	narrow := func(x []float64) (float64, error) {
		if math.Abs(x[0]-2) > 0.05 {
			return 0, outside
		}
		return x[0], nil
	}
	_, err := Propagate(narrow, []Input{{Name: "reading", Value: 2, Standard: 0.1}}, nil)
	if !errors.Is(err, outside) || !strings.Contains(err.Error(), "sensitivity to reading: at reading = 1.9") {
		t.Errorf("both sides outside: %v", err)
	}
	// log 0 is infinite; above, -1.5 log 1 + 2 log 1.5 - 0.5 log 2 over a step of 1/2.
	r, err := Propagate(func(x []float64) (float64, error) { return math.Log(x[0]), nil }, []Input{{Value: 1, Standard: 1}}, nil)
	if want := 4*math.Log(1.5) - math.Log(2); err != nil || !near(r.Standard, want) {
		t.Errorf("log at 1 with u = 1: %v, %v, want u %v", r, err, want)
	}
}

// A step below the rounding of the value must not read as insensitivity.
func TestTinyStandard(t *testing.T) {
	r, err := Propagate(linear(2), []Input{{Value: 1e6, Standard: 1e-12}}, nil)
	if err != nil || math.Abs(r.Budget[0].Sensitivity-2) > 2e-8 { // 1e-16/1e-8, rounding of x over the step
		t.Errorf("%+v, %v", r, err)
	}
}

func TestArgumentMayBeOverwritten(t *testing.T) {
	f := func(x []float64) (float64, error) {
		y := x[0] - 2*x[1]
		x[0], x[1] = math.NaN(), 99
		return y, nil
	}
	in := []Input{{Value: 1, Standard: 0.1}, {Value: 2, Standard: 0.2}}
	r, err := Propagate(f, in, nil)
	if err != nil || !near(r.Value, -3) || !near(r.Standard, math.Sqrt(0.17)) {
		t.Errorf("%v, %v", r, err)
	}
}

func TestFailingFunction(t *testing.T) {
	in := []Input{{Name: "og", Value: 1.09, Standard: 0.001}, {Value: 3}}
	cause := errors.New("cause")
	_, err := Propagate(func([]float64) (float64, error) { return 0, cause }, in, nil)
	if !errors.Is(err, cause) || !strings.Contains(err.Error(), "at og = 1.09, input 2 = 3: cause") {
		t.Errorf("%v", err)
	}
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		var bounds *units.RangeError
		f := func([]float64) (float64, error) { return bad, nil }
		if _, err := Propagate(f, in, nil); !errors.As(err, &bounds) {
			t.Errorf("Propagate of %v: %v", bad, err)
		}
		if _, err := MonteCarlo(f, in, nil, MinTrials, 1); !errors.As(err, &bounds) {
			t.Errorf("MonteCarlo of %v: %v", bad, err)
		}
	}
}

func BenchmarkPropagate(b *testing.B) {
	f := func(x []float64) (float64, error) { return (x[0]*x[2]+x[1]*x[3])/(x[0]+x[1]) + x[4], nil }
	in := []Input{{Value: 3, Standard: 0.02}, {Value: 1, Standard: 0.01}, {Value: 12, Standard: 0.3}, {Value: 40, Standard: 0.2}, {Standard: 0.1}}
	correlation := mat.NewSymDense(5, nil)
	for i := range in {
		correlation.SetSym(i, i, 1)
	}
	correlation.SetSym(0, 1, 0.5)
	for name, c := range map[string]mat.Symmetric{"independent": nil, "correlated": correlation} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Propagate(f, in, c); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
