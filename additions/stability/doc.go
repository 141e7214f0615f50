// Package stability says whether a wine with sugar in it is likely to stay still,
// what each barrier rests on, and what happens in a closed bottle if it ferments
// after all. It never says that a bottle is safe.
//
//	v, err := stability.Judge(wine)                // the word, and its reasons
//	p, err := stability.SealedPressure(wine, bottle, units.Celsius(20))
//
// Wine that ferments in a closed bottle can burst it: do not close wine that may
// ferment.
package stability
