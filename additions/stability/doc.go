// Package stability says whether a wine with sugar in it is likely to stay still,
// what each barrier rests on, and what happens in a closed bottle if it ferments
// after all. It never says that a bottle is safe.
//
//	rest, err := abv.NotSugarOf("morello cherry")
//	sugars, err := rest.Sugars(95.9, 0.58)         // of 95.9 g/L of extract; 0.58 L of a litre is wine
//	wine := stability.Wine{Strength: 20, StrengthUncertainty: 0.15, Sugar: sugars, Extract: 95.9, YeastLimit: 16}
//	v, err := stability.Judge(wine)                // the word, and its reasons
//	r, err := stability.Remedies(wine)             // what would make it stay still
//	p, err := stability.SealedPressure(wine, bottle, units.Celsius(25))
//
// Everything is taken at its unfavourable end, 1 time in 20: see Judge. What is
// not looked at stands in the verdict.
//
// Wine that ferments in a closed bottle can burst it: do not close wine that may
// ferment.
package stability
