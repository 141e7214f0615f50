// Package gravity turns what a spindle or a refractometer shows into true
// relative density and extract at 20 C.
//
//	h := gravity.NewHydrometer(units.Celsius(20))
//	must, err := h.Correct(1.089, units.Celsius(27)) // what it would read at 20 C
//	extract, err := must.Plato()
//
// Every scale meets in one pivot: SG, the density relative to water, both at
// 20 C. Plato and Brix are the per cent by mass of the sucrose solution of that
// density (ICUMSA 1990, 0 to 70 %); Oechsle and Baume are arithmetic on SG.
package gravity
