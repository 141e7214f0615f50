package uncertainty

import (
	"errors"
	"math"
	"runtime"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// JCGM 101:2008, 9.2: the sum of four inputs of standard uncertainty 1. Printed:
// u = 2.0 and [-3.92, 3.92] for normal, [-3.88, 3.88] for rectangular inputs.
func TestAdditiveModel(t *testing.T) {
	const trials = 4_000_000
	for _, c := range []struct {
		shape Distribution
		end   float64
	}{{Normal, 3.92}, {Rectangular, 3.88}} {
		in := make([]Input, 4)
		for i := range in {
			in[i] = Input{Standard: 1, Distribution: c.shape}
		}
		propagated, err := Propagate(linear(1, 1, 1, 1), in, nil)
		if err != nil {
			t.Fatal(err)
		}
		r, err := MonteCarlo(linear(1, 1, 1, 1), in, nil, trials, 1)
		if err != nil {
			t.Fatal(err)
		}
		low, err := r.Quantile(0.025)
		if err != nil {
			t.Fatal(err)
		}
		high, err := r.Quantile(0.975)
		if err != nil {
			t.Fatal(err)
		}
		half, err := r.Expanded(0.95)
		if err != nil {
			t.Fatal(err)
		}
		cmp, err := Compare(propagated, r, 2)
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("%v: u %.4f, symmetric [%.4f, %.4f], half the shortest %.4f, %+v", c.shape, r.Standard, low, high, half, cmp)
		// Half the last printed digit, plus two standard errors of the trials.
		tolerance := 0.005 + 2*cmp.Noise
		if math.Abs(low+c.end) > tolerance || math.Abs(high-c.end) > tolerance || math.Abs(half-c.end) > tolerance {
			t.Errorf("%v: ends differ from +-%v by more than %v", c.shape, c.end, tolerance)
		}
		if math.Abs(r.Standard-2) > 0.05 || math.Abs(propagated.Standard-2) > 0.05 || math.Abs(propagated.High-3.92) > 0.005 {
			t.Errorf("%v: u %v and %v, [%v, %v]", c.shape, r.Standard, propagated.Standard, propagated.Low, propagated.High)
		}
		if !cmp.Adequate || cmp.Tolerance != 0.05 {
			t.Errorf("%v: %+v", c.shape, cmp)
		}
	}
}

// exceeds is the probability that a sum of rectangular quantities of these
// half-widths is above q: the volume of a cube beyond a plane, in closed form.
func exceeds(q float64, halves ...float64) float64 {
	sum, scale := 0.0, 1.0
	for subset := range 1 << len(halves) {
		sign, reach := 1.0, -q
		for i, h := range halves {
			if subset>>i&1 == 1 {
				sign, h = -sign, -h
			}
			reach += h
		}
		sum += sign * math.Pow(max(0, reach), float64(len(halves)))
	}
	for i, h := range halves {
		scale *= 2 * h * float64(i+1)
	}
	return sum / scale
}

// One rectangular input ten times the others: propagation is not adequate.
// u = 10.1 and [-17.0, 17.0] are JCGM 101:2008, 9.2.4, from memory; the closed
// form agrees with them.
func TestDominantRectangle(t *testing.T) {
	one := math.Sqrt(3)
	in := []Input{RectangularInput("", 0, one), RectangularInput("", 0, one), RectangularInput("", 0, one), RectangularInput("", 0, 10*one)}
	propagated, err := Propagate(linear(1, 1, 1, 1), in, nil)
	if err != nil {
		t.Fatal(err)
	}
	r, err := MonteCarlo(linear(1, 1, 1, 1), in, nil, 1_000_000, 1)
	if err != nil {
		t.Fatal(err)
	}
	c, err := Compare(propagated, r, 2)
	if err != nil {
		t.Fatal(err)
	}
	if c.Adequate || math.Abs(propagated.High-1.95996*math.Sqrt(103)) > 1e-4 { // 1.95996 has six digits
		t.Errorf("%+v, %v", c, propagated.High)
	}
	if math.Abs(r.Standard-10.1) > 0.05 {
		t.Errorf("u = %v", r.Standard)
	}
	for _, p := range []float64{0.025, 0.2, 0.5, 0.975} {
		q, err := r.Quantile(p)
		if err != nil {
			t.Fatal(err)
		}
		exact := 1 - exceeds(q, one, one, one, 10*one)
		t.Logf("quantile %v: %.3f, where the closed form has %.5f", p, q, exact)
		if math.Abs(exact-p) > 4*math.Sqrt(p*(1-p)/1e6) { // four standard errors
			t.Errorf("quantile %v is the quantile %v", p, exact)
		}
	}
	if q := exceeds(17, one, one, one, 10*one); math.Abs(q-0.025) > 0.05/(20*one) { // half a printed digit times the density
		t.Errorf("P(Y > 17.0) = %v", q)
	}
}

// The end gauge with its full model and distributions, JCGM 101:2008, 9.5,
// inputs and results from memory: y = 838 nm above the nominal length, u = 32
// nm and a 99 % interval [745, 931] by propagation, u = 36 nm by Monte Carlo.
// It takes normal, t, arcsine, rectangular and inexact rectangular inputs.
func TestEndGauge(t *testing.T) {
	in := []Input{
		{Value: 623, Standard: 25, DegreesOfFreedom: 18},
		{Value: 215, Standard: 6, DegreesOfFreedom: 24},
		{Standard: 4, DegreesOfFreedom: 5},
		{Standard: 7, DegreesOfFreedom: 8},
		RectangularInput("", 11.5e-6, 2e-6),
		{Value: -0.1, Standard: 0.2},
		ArcsineInput("", 0, 0.5),
		RectangularInput("", 0, 1e-6),
		RectangularInput("", 0, 0.05),
	}
	in[7].DegreesOfFreedom, in[8].DegreesOfFreedom = 50, 2
	f := func(x []float64) (float64, error) {
		return x[0] + x[1] + x[2] + x[3] - (50e6+x[0])*(x[7]*(x[5]+x[6])+x[4]*x[8]), nil
	}
	propagated, err := Propagate(f, in, nil)
	if err != nil {
		t.Fatal(err)
	}
	low, high, err := propagated.Interval(0.99)
	if err != nil {
		t.Fatal(err)
	}
	r, err := MonteCarlo(f, in, nil, 1_000_000, 1)
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("propagated %v [%.1f, %.1f], Monte Carlo %v", propagated, low, high, r)
	for _, c := range [][2]float64{{propagated.Value, 838}, {propagated.Standard, 32}, {low, 745}, {high, 931}, {r.Value, 838}, {r.Standard, 36}} {
		if math.Abs(c[0]-c[1]) > 0.5 { // half the last printed digit
			t.Errorf("%v, printed %v", c[0], c[1])
		}
	}
}

// Simultaneous readings have the joint t distribution, so that their sum is t
// with the same degrees of freedom.
func TestJointT(t *testing.T) {
	in := []Input{{Standard: 1, DegreesOfFreedom: 5}, {}, {Standard: 2, DegreesOfFreedom: 5}}
	correlation := coefficients(1, 0, -0.5, 0, 1, 0, -0.5, 0, 1)
	propagated, err := Propagate(linear(1, 1, 1), in, correlation)
	if err != nil {
		t.Fatal(err)
	}
	r, err := MonteCarlo(linear(1, 1, 1), in, correlation, 1_000_000, 3)
	if err != nil {
		t.Fatal(err)
	}
	c, err := Compare(propagated, r, 2)
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%v, %v degrees; %+v", propagated, propagated.DegreesOfFreedom, c)
	if !near(propagated.DegreesOfFreedom, 5) || c.Low > 4*c.Noise || c.High > 4*c.Noise {
		t.Errorf("%v degrees, %+v", propagated.DegreesOfFreedom, c)
	}
}

// The shortest 95 % interval of an exponential quantity starts at its mode.
func TestShortestInterval(t *testing.T) {
	f := func(x []float64) (float64, error) { return -math.Log(x[0]), nil }
	r, err := MonteCarlo(f, []Input{RectangularInput("", 0.5, 0.5)}, nil, 1_000_000, 1)
	if err != nil {
		t.Fatal(err)
	}
	// Four standard errors of the 95 % quantile: sqrt(0.05 0.95/1e6)/0.05.
	if r.Low > 1e-3 || math.Abs(r.High+math.Log(0.05)) > 0.018 {
		t.Errorf("[%v, %v], want [0, %v]", r.Low, r.High, -math.Log(0.05))
	}
	if above, err := r.AtLeast(1); err != nil || math.Abs(above-1/math.E) > 0.002 {
		t.Errorf("P(Y >= 1) = %v, %v", above, err)
	}
	accept, err := r.UpperAcceptanceLimit(5, 0.9)
	if err != nil || math.Abs(accept-(5-(math.Log(10)-1))) > 0.012 {
		t.Errorf("acceptance limit %v, %v", accept, err)
	}
}

func TestReproducible(t *testing.T) {
	f := func(x []float64) (float64, error) { return x[0] * x[1], nil }
	in := []Input{{Value: 2, Standard: 0.1, DegreesOfFreedom: 6}, RectangularInput("", 3, 0.1)}
	run := func(seed uint64) Result {
		r, err := MonteCarlo(f, in, coefficients(1, 0.5, 0.5, 1), 2000, seed)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	first := run(1)
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	if again := run(1); !slices.Equal(first.sample, again.sample) {
		t.Error("the same seed gave another sample")
	}
	if other := run(2); slices.Equal(first.sample, other.sample) {
		t.Error("another seed gave the same sample")
	}
}

func TestConstant(t *testing.T) {
	r, err := MonteCarlo(linear(1), []Input{{Value: 0.1}}, nil, MinTrials, 1)
	if err != nil || r.Value != 0.1 || r.Standard != 0 || r.Low != 0.1 || r.High != 0.1 {
		t.Errorf("%v, %v", r, err)
	}
	p, err := Propagate(linear(1), []Input{{Value: 0.1}}, nil)
	if err != nil || p.String() != "0.1, u 0" {
		t.Errorf("%v, %v", p, err)
	}
	if c, err := Compare(p, r, 2); err != nil || !c.Adequate || c.Tolerance != 0 {
		t.Errorf("%+v, %v", c, err)
	}
}

func TestFailingTrial(t *testing.T) {
	outside := errors.New("outside")
	f := func(x []float64) (float64, error) {
		if x[0] < 0 {
			return 0, outside
		}
		return math.Sqrt(x[0]), nil
	}
	_, err := MonteCarlo(f, []Input{{Name: "reading", Value: 0.1, Standard: 0.1}}, nil, MinTrials, 1)
	if !errors.Is(err, outside) || !strings.Contains(err.Error(), ": at reading = -") {
		t.Errorf("%v", err)
	}
}

func BenchmarkMonteCarlo(b *testing.B) {
	for name, c := range map[string]mat.Symmetric{"independent": nil, "correlated": coefficients(1, 0.5, 0.5, 1)} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := MonteCarlo(linear(1, 2), []Input{{Standard: 1}, RectangularInput("", 0, 1)}, c, 100_000, 1); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func TestToleranceInput(t *testing.T) {
	jug := Tolerance{HalfWidth: 0.03} // of the value
	if got, want := ToleranceInput("must", 2, jug), RectangularInput("must", 2, 0.06); got != want {
		t.Errorf("%+v, by hand %+v", got, want)
	}
}
