package uncertainty_test

import (
	"fmt"
	"math"

	"example.org/mutage/units/uncertainty"
)

// The end gauge of JCGM 100:2008, H.1, prints l = 50 000 838 nm, u_c = 32 nm,
// 16 effective degrees of freedom (truncated), U_99 = 93 nm.
func ExamplePropagate_endGauge() {
	length := func(x []float64) (float64, error) { return x[0] + x[1] + x[2] + x[3], nil }
	r, err := uncertainty.Propagate(length, []uncertainty.Input{
		{Name: "standard, nm", Value: 50_000_623, Standard: 25, DegreesOfFreedom: 18},
		{Name: "difference, nm", Value: 215, Standard: 9.7, DegreesOfFreedom: 25.6},
		{Name: "difference of expansion, nm", Standard: 2.9, DegreesOfFreedom: 50},
		{Name: "difference of temperature, nm", Standard: 16.6, DegreesOfFreedom: 2},
	}, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	expanded, err := r.Expanded(0.99)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(r)
	fmt.Printf("%.0f degrees of freedom, U99 = %.0f\n", math.Floor(r.DegreesOfFreedom), expanded)
	for _, c := range r.Ranked()[:2] {
		fmt.Printf("%s: %.3g, %.0f %% of the variance\n", c.Name, c.Uncertainty, 100*c.Share)
	}
	// Output:
	// 50000838, u 32
	// 16 degrees of freedom, U99 = 93
	// standard, nm: 25, 62 % of the variance
	// difference of temperature, nm: 16.6, 27 % of the variance
}

// The impedance of JCGM 100:2008, H.2, prints R = 127.732 (0.071), X = 219.847
// (0.295), Z = 254.260 (0.236) ohm. For X the readings give 0.29558 by this
// way and 0.29549 by evaluating every set of readings alone, as the GUM also does.
func ExampleTypeA_impedance() {
	in, correlation, err := uncertainty.TypeA(
		uncertainty.Series{Name: "V", Readings: []float64{5.007, 4.994, 5.005, 4.990, 4.999}},
		uncertainty.Series{Name: "I", Readings: []float64{19.663e-3, 19.639e-3, 19.640e-3, 19.685e-3, 19.678e-3}},
		uncertainty.Series{Name: "phi", Readings: []float64{1.0456, 1.0438, 1.0468, 1.0428, 1.0433}},
	)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, z := range []func(x []float64) (float64, error){
		func(x []float64) (float64, error) { return x[0] / x[1] * math.Cos(x[2]), nil },
		func(x []float64) (float64, error) { return x[0] / x[1] * math.Sin(x[2]), nil },
		func(x []float64) (float64, error) { return x[0] / x[1], nil },
	} {
		r, err := uncertainty.Propagate(z, in, correlation)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.3f (%.3f)\n", r.Value, r.Standard)
	}
	// Output:
	// 127.732 (0.071)
	// 219.847 (0.296)
	// 254.260 (0.236)
}

// The thermometer of JCGM 100:2008, H.3, prints y1 = -0.1712 (0.0029), y2 =
// 0.00218 (0.00067), r = -0.930 and b(30) = -0.1494 (0.0041) degrees C.
func ExampleFitLine_thermometer() {
	line, err := uncertainty.FitLine(
		[]float64{21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511},
		[]float64{-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160},
		20)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("y1 = %.4f (%.4f)\n", line.Intercept, line.InterceptStandard)
	fmt.Printf("y2 = %.5f (%.5f)\n", line.Slope, line.SlopeStandard)
	fmt.Printf("r = %.3f\n", line.Correlation)
	at30, err := line.Extrapolate(30) // beyond the last point
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("b(30) =", at30)
	// Output:
	// y1 = -0.1712 (0.0029)
	// y2 = 0.00218 (0.00067)
	// r = -0.930
	// b(30) = -0.1494, u 0.0041
}

// A morello cherry wine is mixed with a spirit, volumes simply added; the last
// input is the uncertainty of that formula.
func ExamplePropagate() {
	strength := func(x []float64) (float64, error) {
		wine, spirit, a, b, model := x[0], x[1], x[2], x[3], x[4]
		return (wine*a+spirit*b)/(wine+spirit) + model, nil
	}
	r, err := uncertainty.Propagate(strength, []uncertainty.Input{
		{Name: "wine, L", Value: 3.0, Standard: 0.02},
		{Name: "spirit, L", Value: 1.0, Standard: 0.01},
		{Name: "wine, % vol", Value: 12.0, Standard: 0.3},
		uncertainty.RectangularInput("spirit, % vol", 40, 0.3),
		{Name: "model, % vol", Value: 0, Standard: 0.1},
	}, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(r)
	fmt.Println(r.Ranked()[0].Name)
	fmt.Printf("%.1f to %.1f\n", r.Low, r.High)
	// Output:
	// 19.00, u 0.26
	// wine, % vol
	// 18.5 to 19.5
}

// A maximum of 200 mg/L must be kept with 95 % confidence by a determination
// whose standard uncertainty is 6 mg/L.
func ExampleResult_UpperAcceptanceLimit() {
	r := uncertainty.Result{Value: 188, Standard: 6}
	accept, err := r.UpperAcceptanceLimit(200, 0.95)
	if err != nil {
		fmt.Println(err)
		return
	}
	above, err := r.AtLeast(200)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("accept up to %.0f; at %.0f the limit is passed with probability %.3f\n", accept, r.Value, above)
	// Output:
	// accept up to 190; at 188 the limit is passed with probability 0.023
}

// Two readings near zero, squared and added: propagation sees no uncertainty
// where the function is flat, and the comparison finds it out.
func ExampleCompare() {
	squares := func(x []float64) (float64, error) { return x[0]*x[0] + x[1]*x[1], nil }
	in := []uncertainty.Input{{Name: "a", Standard: 0.005}, {Name: "b", Standard: 0.005}}
	propagated, err := uncertainty.Propagate(squares, in, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	monteCarlo, err := uncertainty.MonteCarlo(squares, in, nil, 100_000, 1)
	if err != nil {
		fmt.Println(err)
		return
	}
	c, err := uncertainty.Compare(propagated, monteCarlo, 2)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(propagated)
	fmt.Println(monteCarlo)
	fmt.Println("adequate:", c.Adequate)
	// Output:
	// 0, u 0
	// 0.000050, u 0.000050
	// adequate: false
}

func ExampleRound() {
	value, standard, err := uncertainty.Round(12.34567, 0.0996)
	if err != nil {
		fmt.Println(err)
		return
	}
	places := -standard.Exponent()
	fmt.Println(value.StringFixed(places), standard.StringFixed(places))
	// Output: 12.35 0.10
}
