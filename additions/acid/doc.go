// Package acid is the acidity of must and wine: what to weigh to raise or lower
// it, what a titration says, and the pH that follows, by charge balance.
//
//	g, err := acid.RaiseTA(1, 3, acid.Tartaric)    // for 1 g/L more in 3 L
//	b, err := acid.Fit(acid.Measurement{PH: 3.4, TA: 7})
//
// Weigh acids; taste and measure before a second addition.
package acid
