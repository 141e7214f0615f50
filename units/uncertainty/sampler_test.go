package uncertainty

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
)

func draws(t *testing.T, in []Input, correlation mat.Symmetric, n int) [][]float64 {
	t.Helper()
	d, err := newDependence(in, correlation, true)
	if err != nil {
		t.Fatal(err)
	}
	s, err := newSampler(in, d, 1)
	if err != nil {
		t.Fatal(err)
	}
	columns, x := make([][]float64, len(in)), make([]float64, len(in))
	for range n {
		s.draw(x)
		for i := range x {
			columns[i] = append(columns[i], x[i])
		}
	}
	return columns
}

// Each shape has the standard deviation it was given; t and the inexact
// rectangle have more, by sqrt(v/(v-2)) and sqrt(1 + 1/(6 v)).
func TestShapes(t *testing.T) {
	in := []Input{
		{Value: 7, Standard: 0.5},
		{Value: 7, Standard: 0.5, DegreesOfFreedom: 10},
		RectangularInput("", 7, 0.5*math.Sqrt(3)),
		TriangularInput("", 7, 0.5*math.Sqrt(6)),
		ArcsineInput("", 7, 0.5*math.Sqrt2),
		{Value: 7, Standard: 0.5, DegreesOfFreedom: 2, Distribution: Rectangular},
		{Value: 7},
	}
	columns := draws(t, in, nil, 400_000)
	for i, ratio := range []float64{1, math.Sqrt(10. / 8), 1, 1, 1, math.Sqrt(1 + 1./12), 0} {
		mean, deviation := stat.MeanStdDev(columns[i], nil)
		// Four standard errors of mean and deviation; the t has kurtosis 4.
		if math.Abs(mean-7) > 4*deviation/632 || math.Abs(deviation-0.5*ratio) > 4*0.5*ratio/632 {
			t.Errorf("%v with %v degrees: mean %v, deviation %v, want 7, %v", in[i].Distribution, in[i].DegreesOfFreedom, mean, deviation, 0.5*ratio)
		}
	}
	for i, bound := range map[int]float64{2: math.Sqrt(3), 3: math.Sqrt(6), 4: math.Sqrt2, 5: math.Sqrt(3) * 1.5} {
		if low, high := slices.Min(columns[i]), slices.Max(columns[i]); low < 7-0.5*bound-1e-12 || high > 7+0.5*bound+1e-12 {
			t.Errorf("%v: [%v, %v]", in[i].Distribution, low, high)
		}
	}
}

// Joint draws have the correlation asked for where both are normal or t, and
// that of the Gaussian copula otherwise: (6/pi) asin(r/2) between rectangular
// inputs, r sqrt(3/pi) between a normal and a rectangular one.
func TestJointDraws(t *testing.T) {
	const n = 100_000
	for _, r := range []float64{-1, -0.6, 0.3, 0.9, 1} {
		for _, c := range []struct {
			a, b Input
			want float64
		}{
			{Input{Standard: 2}, Input{Standard: 3}, r},
			{Input{Standard: 2, DegreesOfFreedom: 9}, Input{Standard: 3, DegreesOfFreedom: 9}, r},
			{RectangularInput("", 0, 1), RectangularInput("", 0, 2), 6 / math.Pi * math.Asin(r/2)},
			{Input{Standard: 2}, RectangularInput("", 0, 1), r * math.Sqrt(3/math.Pi)},
		} {
			columns := draws(t, []Input{c.a, c.b}, coefficients(1, r, r, 1), n)
			got := stat.Correlation(columns[0], columns[1], nil)
			// Four standard errors of a correlation, a fifth more for the tails of
			// the t, and rounding.
			if math.Abs(got-c.want) > 5*(1-c.want*c.want)/math.Sqrt(n)+1e-9 {
				t.Errorf("%v and %v at r = %v: %v, want %v", c.a.Distribution, c.b.Distribution, r, got, c.want)
			}
		}
		for a := Normal; a <= Arcsine; a++ {
			for b := a; b <= Arcsine; b++ {
				columns := draws(t, []Input{{Standard: 1, Distribution: a}, {Standard: 1, Distribution: b}}, coefficients(1, r, r, 1), 50_000)
				promised := 0.024
				if b == Arcsine {
					promised = 0.053
				}
				if got := stat.Correlation(columns[0], columns[1], nil); math.Abs(got-r) > promised+4*(1-r*r)/223 {
					t.Errorf("%v and %v at r = %v: %v", a, b, r, got)
				}
			}
		}
	}
}
