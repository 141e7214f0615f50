// Package gravity turns what a hydrometer or a refractometer shows into true
// relative density and extract at 20 C.
//
//	h := gravity.NewHydrometer(units.Celsius(20))
//	must, err := h.Correct(1.089, units.Celsius(27)) // what it would read at 20 C
//	extract, err := must.Plato()
//
// Every scale meets in one pivot: SG, the density relative to water, both at
// 20 C. Plato and Brix are the per cent by mass of the sucrose solution of that
// density (ICUMSA 1990, 0 to 70 %); Oechsle, gravity points and the two Baume
// scales are arithmetic on SG; a Basis names the temperatures of any other
// specific gravity: 60/60 F, 15/15, 17.5/17.5, 20/4.
//
// A hydrometer made for another temperature, with a scale error, or read at the top
// of the meniscus:
//
//	old := gravity.NewHydrometer(units.Fahrenheit(60)).
//		WithMeniscus(0.0015).
//		WithTests(gravity.TestReading{Shown: 1.002, True: 1.000})
//	must, err := old.Correct(1.089, units.Celsius(27))
//
// In a wine or a fortified wine the correction is another one, since alcohol
// expands more than sugar water: CorrectIn takes the strength, and Shows says
// what to expect on the scale. A Refractometer is true in juice before it
// ferments; what two instruments tell about a liquid with alcohol in it is
// in package abv. CorrectWithin of either instrument says how sure the result
// is. Degas every sample that has fermented before it is read.
package gravity
