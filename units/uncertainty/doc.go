// Package uncertainty answers "how sure is this number?" for anything computed
// from readings: a strength from two hydrometer readings, a blend from three
// volumes, a dose from a spoon. It knows nothing of the cellar; give it the
// computation as a function and what is known of each reading as an [Input].
//
//   - [Propagate] follows JCGM 100:2008 (the GUM): sensitivities, budget,
//     combined standard uncertainty, effective degrees of freedom.
//   - [MonteCarlo] follows JCGM 101:2008: it draws the inputs and gives the
//     distribution of the result. [Compare] says whether the first was adequate.
//   - [TypeA] and [FitLine] turn repeated readings and a calibration into inputs.
//   - [Result] gives coverage intervals, the probability of reaching a limit and
//     the acceptance limit that guards a legal one; [Round] prints.
//
// A morello cherry wine is mixed with a spirit; how sure is the strength, and
// which reading should be taken with more care?
//
//	strength := func(x []float64) (float64, error) {
//		wine, spirit, a, b, model := x[0], x[1], x[2], x[3], x[4]
//		return (wine*a+spirit*b)/(wine+spirit) + model, nil
//	}
//	r, err := uncertainty.Propagate(strength, []uncertainty.Input{
//		{Name: "wine, L", Value: 3.0, Standard: 0.02},
//		{Name: "spirit, L", Value: 1.0, Standard: 0.01},
//		{Name: "wine, % vol", Value: 12.0, Standard: 0.3},
//		uncertainty.RectangularInput("spirit, % vol", 40, 0.3),
//		{Name: "model, % vol", Value: 0, Standard: 0.1},
//	}, nil)
//	if err != nil {
//		return err
//	}
//	fmt.Println(r)                  // 19.00, u 0.26
//	fmt.Println(r.Ranked()[0].Name) // wine, % vol
//
// The uncertainty of the formula itself is an input like the others: give it the value
// 0 and the model's standard uncertainty, and add it inside the function, as
// "model" above.
//
// Degrees of freedom 0 stand for infinitely many, in inputs and in results.
// The function given must not keep its argument; it is called from one
// goroutine. All functions here are safe for concurrent use.
package uncertainty
